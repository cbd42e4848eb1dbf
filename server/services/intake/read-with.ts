import type { Given, Mapping } from '#server/contract/mappings.ts';
import type { CsvColumns } from './csv-columns.ts';

/** How the lines of a delivery are read: enough to read one of them again by itself. */
export type ReadWith =
  | { form: 'json' }
  | { form: 'csv'; columns: CsvColumns }
  | {
      form: 'mapped';
      mapping: Mapping;
      given: Given;
      /** names of the columns, as the file has them */
      header: string[];
      /** the clock fell back, so that the day of a row cannot be told from this row alone */
      severalDays: boolean;
    };

/** What reading a delivery tells beside its lines, kept with the receipt. */
export interface ReadNotes {
  /** known before the first line is handed on */
  readWith: ReadWith | null;
  /** rows of a long layout by the name of the value that was left out */
  leftOut: Map<string, number>;
  /** rows that were read; null where each makes a line of its own */
  rows: number | null;
}

export const newReadNotes = (): ReadNotes => ({ readWith: null, leftOut: new Map(), rows: null });
