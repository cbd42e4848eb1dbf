import { ReadingColumns } from '#db/queries/reading-columns.ts';

/** Two for each of two deliveries at once. */
const MOST = 4;

const spare: ReadingColumns[] = [];

/** Columns to fill, of a delivery that is done, where there are any: memory asked for anew each time sets the collector going. */
export const takeColumns = (): ReadingColumns => spare.pop() ?? new ReadingColumns();

/** Whoever gives columns back has stored what was in them, and looks at them no more. */
export function giveBack(columns: ReadingColumns): void {
  if (spare.length >= MOST) return;
  columns.clear();
  spare.push(columns);
}
