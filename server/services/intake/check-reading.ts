import { type Reading, readingInput, toReading } from '#server/contract/readings.ts';
import { isPlainReading } from './is-plain-reading.ts';
import type { LineError } from './line.ts';

export const AHEAD_LIMIT_MS = 24 * 3_600_000;
export const OLDEST_MS = Date.UTC(1990, 0, 1);

export type Checked = { reading: Reading; errors: null } | { reading: null; errors: LineError[] };

/** A value as a reading, or every reason why it cannot be one. `nowMs` is the server's clock. */
export function checkReading(value: unknown, nowMs: number): Checked {
  if (typeof value !== 'object' || value === null || Array.isArray(value))
    return refused([{ field: '', message: 'must be an object with the fields of a reading' }]);
  let reading: Reading;
  if (isPlainReading(value)) reading = toReading(value);
  else {
    const parsed = readingInput.safeParse(value);
    if (!parsed.success)
      return refused(
        parsed.error.issues.map(({ path, message }) => ({ field: path.map(String).join('.'), message })),
      );
    reading = toReading(parsed.data);
  }
  const atMs = reading.at.getTime();
  if (atMs > nowMs + AHEAD_LIMIT_MS)
    return refused([
      { field: 'at', message: `is more than 24 hours ahead of the server, whose clock says ${iso(nowMs)}` },
    ]);
  if (atMs < OLDEST_MS) return refused([{ field: 'at', message: 'is before 1990' }]);
  return { reading, errors: null };
}

const refused = (errors: LineError[]): Checked => ({ reading: null, errors });
const iso = (ms: number): string => `${new Date(ms).toISOString().slice(0, 19)}Z`;
