import type { SetUpKind } from '#server/contract/words.ts';
import { depotColumns } from './depot-columns.ts';
import { platformColumns } from './platform-columns.ts';
import type { SetUpColumn } from './set-up-column.ts';
import { failureColumns, lifeColumns, vehicleColumns } from './vehicle-columns.ts';

export interface SetUpFile {
  kind: SetUpKind;
  /** the first column is what a line is found by */
  columns: readonly SetUpColumn[];
  /** whom the call answers */
  access: 'setUp' | 'plan';
  /** what one line is about, and what changes come to */
  one: string;
  /** what it is for, for the person who has such a file */
  lead: string;
}

/** In the order in which they work: what is named by others comes first. */
export const setUpFiles: readonly SetUpFile[] = [
  {
    kind: 'depots',
    columns: depotColumns,
    access: 'setUp',
    one: 'depot',
    lead: 'Bays, time zone and weekly hours. Holidays and other special days are set under Settings.',
  },
  {
    kind: 'platforms',
    columns: platformColumns,
    access: 'setUp',
    one: 'platform',
    lead: 'Vehicle and transmission types with their limit, bands, gate, costs and what the shop needs.',
  },
  {
    kind: 'vehicles',
    columns: vehicleColumns,
    access: 'plan',
    one: 'vehicle',
    lead: 'Which depot and platform a vehicle is of, its VIN, and whether it is still in service.',
  },
  {
    kind: 'lives',
    columns: lifeColumns,
    access: 'plan',
    one: 'converter life',
    lead: 'One line a converter, from fitting to removal. Corrects what is on record, too.',
  },
  {
    kind: 'failures',
    columns: failureColumns,
    access: 'plan',
    one: 'converter life',
    lead: 'Changes of converters from the books of the workshop, in any order. Each ends the life that ran and begins the next. It adds to what is on record and never overwrites it.',
  },
];

export function findSetUpFile(kind: SetUpKind): SetUpFile {
  const found = setUpFiles.find((file) => file.kind === kind);
  if (found === undefined) throw new Error(`no set-up file is called ${kind}`);
  return found;
}
