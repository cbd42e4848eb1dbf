/** What a cell of a set-up file holds. */
export type CellKind = 'text' | 'number' | 'numbers' | 'yes_no' | 'moment' | 'hours' | 'choice';

/** One column of a set-up file: the reader, the template and what people are told of it all come from here. */
export interface SetUpColumn {
  /** heading in the file */
  name: string;
  /** field of the element that the call with JSON takes; a group and its part */
  path: readonly [string] | readonly [string, string];
  holds: CellKind;
  /** what the figure is in, or how the text is written */
  unit: string;
  /** the same field in another unit, as a column of its own */
  also?: { name: string; unit: 'mi' | 'degF' | 'mph' };
  /** words of which one must be there */
  choices?: readonly string[];
  /** must be there in every line */
  needed?: true;
  /** whether `-` takes away what is there */
  clears?: true;
  /** as it stands in the line of the template */
  example: string;
  meaning: string;
}

/** In place of a value: nothing is kept under this column from now on. */
export const CLEAR_MARK = '-';
/** Where nobody works. */
export const CLOSED_WORD = 'closed';
/** A line with this in its first column says the units and is passed over. */
export const UNITS_MARK = '# units';
