import { UNITS_MARK } from '#server/contract/set-up-files/set-up-column.ts';
import type { SetUpFile } from '#server/contract/set-up-files/set-up-files.ts';
import { writeCsv } from '#server/services/csv/write-csv.ts';

/** A file to begin with: headings, a line of units that the reader passes over, and a line that it takes. */
export function writeTemplate({ columns }: SetUpFile): string {
  const units = columns.map(({ unit }, index) => (index === 0 ? UNITS_MARK : unit));
  return writeCsv(
    columns.map(({ name }) => name),
    [units, columns.map(({ example, holds }) => (holds === 'number' ? Number(example) : example))],
  );
}
