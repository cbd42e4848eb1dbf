import type { Look } from '#server/contract/looks.ts';
import type { Given, Mapping } from '#server/contract/mappings.ts';
import type { FieldError } from '#server/contract/problems.ts';
import { SlipdriftError } from '#server/errors.ts';
import { readCsvHeader } from '#server/services/intake/csv-columns.ts';
import { chooseWindow } from '#server/services/intake/propose/choose-window.ts';
import { cutTable } from '#server/services/intake/propose/cut-table.ts';
import { decodeSample } from '#server/services/intake/propose/decode-sample.ts';
import {
  doubtMapping,
  keepStanding,
  listMappedNames,
} from '#server/services/intake/propose/doubt-mapping.ts';
import { guessNames } from '#server/services/intake/propose/propose-long.ts';
import { proposeMapping } from '#server/services/intake/propose/propose-mapping.ts';
import { sampleColumns } from '#server/services/intake/propose/sample-columns.ts';

export type CsvLook = Pick<Look, 'own_form' | 'mapping' | 'columns' | 'names' | 'doubts'> & {
  /** why it cannot be read at all */
  unread: FieldError | null;
};

export interface LookedMapping {
  mapping: Mapping;
  /** saved, and settled by whoever saved it */
  saved: boolean;
}

/** What the beginning of a CSV says of its form: ours, or the mapping it is read with, given or proposed. */
export async function lookAtCsv(
  head: Buffer,
  given: Given,
  chosen: LookedMapping | null,
  ignoreUnknownColumns: boolean,
): Promise<CsvLook> {
  const { text, unread } = decodeSample(head);
  const none = { own_form: false, mapping: chosen?.mapping ?? null, columns: [], names: [], doubts: [] };
  if (unread !== null) return { ...none, unread: { field: '', message: unread } };
  if (chosen === null && isOwnForm(text, ignoreUnknownColumns)) {
    const { columns } = proposeMapping(head, given);
    return { ...none, own_form: true, columns, unread: null };
  }
  if (chosen !== null) {
    const { mapping, saved } = chosen;
    const own = proposeMapping(head, given, mapping);
    const free = saved ? [] : keepStanding(proposeMapping(head, given), mapping);
    const doubts = [...free, ...doubtMapping(text, mapping, free)];
    const named = listMappedNames(sampleColumns(text, mapping), mapping);
    const names = mapping.layout === 'long' ? guessNames(named, mapping.decimal).names : [];
    return { own_form: false, mapping, columns: own.columns, names, doubts, unread: null };
  }
  const proposal = proposeMapping(head, given);
  const empty = sayEmpty(text, proposal.mapping);
  if (empty !== null) return { ...none, unread: { field: '', message: empty } };
  const { mapping, doubts } = await chooseWindow(head, proposal);
  doubts.push(...doubtMapping(text, mapping, doubts));
  return { ...proposal, own_form: false, mapping, doubts, unread: null };
}

/** Where there is nothing to guess from. */
function sayEmpty(text: string, mapping: Mapping): string | null {
  if (text.trim() === '') return 'is empty';
  return mapping.header && sampleColumns(text, mapping).rows.length === 0
    ? 'has one line of names of columns, and no row below it'
    : null;
}

function isOwnForm(text: string, ignoreUnknownColumns: boolean): boolean {
  const [first] = cutTable(text, ',', 50);
  if (first === undefined) return false;
  try {
    readCsvHeader(first.line, first.cells, ignoreUnknownColumns);
    return true;
  } catch (error) {
    if (!(error instanceof SlipdriftError)) throw error;
    return false;
  }
}
