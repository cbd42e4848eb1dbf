/** Figures as a table: for screen readers, for copying, for checking. Its cells are words as the screen has them. */
export interface PlainTable {
  caption: string;
  columns: readonly { title: string; kind: 'word' | 'figure' }[];
  rows: readonly (readonly string[])[];
}

/** A figure without what hinders a spreadsheet: thousands separators, a true minus sign, a dash for none. */
export const plainFigure = (cell: string): string =>
  cell === '–' ? '' : cell.replaceAll(',', '').replaceAll('\u00a0', ' ').replace('−', '-');

const figure = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i;
/** What a spreadsheet would run as a formula (OWASP, CSV Injection). */
const formula = /^[=+\-@\t\r]/;

function writeCell(cell: string): string {
  const safe = formula.test(cell) && !figure.test(cell) ? `'${cell}` : cell;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

/** A table as CSV (RFC 4180): a header line, CRLF, quotes where needed, plain figures. */
export const writeCsv = ({ columns, rows }: PlainTable): string =>
  [
    columns.map(({ title }) => title),
    ...rows.map((row) =>
      row.map((cell, i) =>
        columns[i]?.kind === 'figure' ? plainFigure(cell) : cell.replace(/^–$/, '').replaceAll('\u00a0', ' '),
      ),
    ),
  ]
    .map((cells) => `${cells.map(writeCell).join(',')}\r\n`)
    .join('');
