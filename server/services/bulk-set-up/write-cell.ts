import { CLOSED_WORD, type SetUpColumn } from '#server/contract/set-up-files/set-up-column.ts';
import type { Cell } from '#server/services/csv/write-csv.ts';
import { sayMoment } from './read-cell.ts';

type Content = Record<string, unknown>;

/** What of a record belongs under a column, as the reader takes it; null for nothing. */
export function writeCell(column: SetUpColumn, content: Content): Cell {
  const [field, part] = column.path;
  const whole = content[field];
  const value = part === undefined ? whole : (whole as Content | null | undefined)?.[part];
  if (column.holds === 'hours') {
    if (value === undefined) return null;
    const hours = value as { from: string; to: string } | null;
    return hours === null ? CLOSED_WORD : `${hours.from}-${hours.to}`;
  }
  if (value === undefined || value === null) return null;
  switch (column.holds) {
    case 'number':
      return value as number;
    case 'numbers':
      return (value as number[]).join(' ');
    case 'yes_no':
      return value ? 'yes' : 'no';
    case 'moment':
      return sayMoment(new Date(value as string | Date));
    default:
      return String(value);
  }
}
