import type { ReadingColumns } from '#db/queries/reading-columns.ts';
import { AHEAD_LIMIT_MS, OLDEST_MS } from '#server/services/intake/check-reading.ts';
import { createPlainScanner } from './scan-plain-line.ts';

/** Lines of a body that were taken, between one block and the next. */
export interface PlainBlock {
  count: number;
  firstLine: number;
  lastLine: number;
}

/**
 * Takes the plain lines of a body straight from its bytes: what nine of ten gateways send goes without text, objects and
 * schema, which are most of the time of a delivery, into the columns that wait then. A line that is not taken goes the usual way.
 */
export function createPlainRows(now: () => number, columns: () => ReadingColumns) {
  const scan = createPlainScanner();
  let count = 0;
  let firstLine = 0;
  let lastLine = 0;
  const limits = { oldestMs: OLDEST_MS, latestMs: now() + AHEAD_LIMIT_MS };
  return {
    /** Whether a line, without its end, was taken. */
    take(bytes: Buffer, from: number, to: number, line: number): boolean {
      if (!scan(bytes, from, to, limits, columns(), line)) return false;
      if (count === 0) firstLine = line;
      lastLine = line;
      count++;
      return true;
    },
    /** What was taken since the last time; null for nothing. */
    finishBlock(): PlainBlock | null {
      if (count === 0) return null;
      const block = { count, firstLine, lastLine };
      count = 0;
      limits.latestMs = now() + AHEAD_LIMIT_MS;
      return block;
    },
  };
}

export type PlainRows = ReturnType<typeof createPlainRows>;
