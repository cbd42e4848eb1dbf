import { ReadingColumns } from '#db/queries/reading-columns.ts';
import { AHEAD_LIMIT_MS, OLDEST_MS } from '#server/services/intake/check-reading.ts';
import { createPlainScanner } from './scan-plain-line.ts';

/** Lines of a body that were plain readings, between one block and the next. */
export interface PlainBlock {
  readings: ReadingColumns;
  firstLine: number;
  lastLine: number;
}

/**
 * Takes the plain lines of a body straight from its bytes: what nine of ten gateways send goes without text, objects and
 * schema, which are most of the time of a delivery. A line that is not taken goes the usual way.
 */
export function createPlainRows(now: () => number) {
  const scan = createPlainScanner();
  let readings = new ReadingColumns();
  let latestMs = now() + AHEAD_LIMIT_MS;
  return {
    /** Whether a line, without its end, was taken. */
    take: (bytes: Buffer, from: number, to: number, line: number): boolean =>
      scan(bytes, from, to, { line, oldestMs: OLDEST_MS, latestMs }, readings),
    /** What was taken since the last time; null for nothing. */
    finishBlock(): PlainBlock | null {
      if (readings.length === 0) return null;
      const block = {
        readings,
        firstLine: readings.line[0] ?? 0,
        lastLine: readings.line[readings.length - 1] ?? 0,
      };
      readings = new ReadingColumns();
      latestMs = now() + AHEAD_LIMIT_MS;
      return block;
    },
  };
}

export type PlainRows = ReturnType<typeof createPlainRows>;
