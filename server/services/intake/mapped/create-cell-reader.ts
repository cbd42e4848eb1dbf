import { fieldUnits } from '#server/contract/field-units.ts';
import type { FileUnit, MappedField, Mapping } from '#server/contract/mappings.ts';
import { createFigureReader } from './read-figure.ts';

type Value = number | boolean | string[];
/** What a cell comes to: the value, or what is wrong with it. */
export type CellReader = (cell: string) => Value | string;

const YES = new Set(['true', '1', 'yes', 'y', 'on', 'ja', 'oui', 'si', 'sí', 'ein', 'an']);
const NO = new Set(['false', '0', 'no', 'n', 'off', 'nein', 'non', 'aus']);

export function createCellReader(
  field: MappedField,
  unit: FileUnit | null,
  decimal: Mapping['decimal'],
): CellReader {
  if (field === 'codes') return (cell) => cell.split(/[\s;,|]+/).filter((code) => code !== '');
  if (field === 'shifting') return readYesNo;
  return createFigureReader(fieldUnits[field], unit, decimal);
}

function readYesNo(cell: string): boolean | string {
  const text = cell.toLowerCase();
  if (YES.has(text)) return true;
  return NO.has(text) ? false : 'must be yes or no';
}

/** Whether a cell says that there is no value. */
export function createMissingTest(marks: readonly string[]): (cell: string) => boolean {
  const known = new Set(marks.map((mark) => mark.trim().toLowerCase()));
  const longest = Math.max(0, ...[...known].map((mark) => mark.length));
  return (cell) => cell === '' || (cell.length <= longest && known.has(cell.toLowerCase()));
}
