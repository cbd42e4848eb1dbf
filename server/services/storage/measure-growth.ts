import type { StorageReport, StoredMonth } from '#server/contract/storage.ts';
import { startOfMonth } from './months.ts';

const DAY_MS = 86_400_000;

/**
 * How many readings a day come: as many as were taken on a day of the month before; where that has none, of this month so
 * far. By when they were taken, so that a history that came at once does not count as a day's readings.
 */
export function measureGrowth(
  months: readonly StoredMonth[],
  now: Date,
  bytesPerReading: number,
): StorageReport['growth'] {
  const thisMonth = now.toISOString().slice(0, 7);
  const before = startOfMonth(thisMonth, -1).toISOString().slice(0, 7);
  for (const month of [before, thisMonth]) {
    const end = Math.min(startOfMonth(month, 1).getTime(), now.getTime());
    const days = (end - startOfMonth(month).getTime()) / DAY_MS;
    const rows = months.find((one) => one.month === month)?.rows ?? 0;
    if (rows === 0 || days < 1) continue;
    const perDay = rows / days;
    return { month, readings_per_day: perDay, bytes_per_day: perDay * bytesPerReading };
  }
  return null;
}
