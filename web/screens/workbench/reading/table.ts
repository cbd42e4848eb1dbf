/** At most so much is read: a browser holds it, and the analysis takes no more. */
export const mostRows = 100_000;
export const mostBytes = 32 * 1024 * 1024;
export const mostColumns = 200;

/** A pasted or dropped text, cut into cells. */
export interface Table {
  separator: Separator;
  hasHeader: boolean;
  decimal: Decimal;
  columns: readonly string[];
  rows: readonly Row[];
  /** what was noticed while reading, in sentences */
  told: readonly string[];
}

export interface Row {
  /** in the text, from 1; of a cell with line breaks, its last */
  line: number;
  cells: readonly string[];
}

export const separators = [',', ';', '\t'] as const;
export type Separator = (typeof separators)[number];
export const decimals = ['point', 'comma'] as const;
export type Decimal = (typeof decimals)[number];

/** What whoever pasted said of the text; what is left out is guessed. */
export interface ReadOptions {
  hasHeader?: boolean | undefined;
  decimal?: Decimal | undefined;
}

/** A text that cannot be read as a whole, with why and what to do. */
export class TableFault extends Error {}

export interface RowFault {
  line: number;
  column: string;
  reason: string;
}
