import type { NotebookView } from '#db/notebook/view.ts';
import type { NotebookRow } from '#db/queries/read-notebook-rows.ts';
import { type Cell, writeCsv } from '#server/services/csv/write-csv.ts';

/** Rows as CSV, a piece for some rows at a time. Lists stand in one cell, parted by a space where they are numbers. */
export async function* writeCsvRows(
  { columns }: NotebookView,
  rows: AsyncIterable<readonly NotebookRow[]>,
): AsyncGenerator<Buffer> {
  const names = columns.map(({ name }) => name);
  yield Buffer.from(writeCsv(names, []));
  for await (const some of rows) {
    const cells = some.map((row) => names.map((name) => toCell(row[name])));
    yield Buffer.from(writeCsv(names, cells, { header: false }));
  }
}

function toCell(value: unknown): Cell {
  if (value === null || value === undefined) return null;
  if (value instanceof Date) return value.toISOString();
  if (Array.isArray(value)) return value.join(typeof value[0] === 'string' ? ' · ' : ' ');
  if (typeof value === 'object') return JSON.stringify(value);
  return value as Cell;
}
