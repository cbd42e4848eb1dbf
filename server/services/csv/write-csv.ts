import { stringify } from 'csv-stringify/sync';

export type Cell = string | number | boolean | null;

/**
 * A table as CSV (RFC 4180: CRLF, a header line, quotes where needed). Text that a spreadsheet would take for a formula,
 * because it begins with = + - @, a tab or a line break, gets an apostrophe in front (OWASP, CSV Injection); numbers stay
 * numbers. A later part of the same table goes without its header.
 */
export function writeCsv(
  columns: readonly string[],
  rows: readonly (readonly Cell[])[],
  { header = true }: { header?: boolean } = {},
): string {
  return stringify(
    rows.map((row) => row.map((cell) => (cell === null ? '' : cell))),
    {
      header,
      columns: columns.map((key, i) => ({ key: String(i), header: key })),
      record_delimiter: 'windows',
      // The library quotes whole record ends only; a line break alone ends a line for other readers.
      quoted_match: /[\r\n]/,
      escape_formulas: true,
      cast: { number: String, boolean: String },
    },
  );
}
