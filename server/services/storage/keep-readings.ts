import { dropReadingMonthsBefore } from '#db/partitions.ts';
import type { Context } from '#server/services/context.ts';
import { startOfKept } from './upkeep-limits.ts';

/** Drops the readings of months that ended more than `months` months ago; 0 keeps all. Stretches stay. */
export async function keepReadings({ db, now, log }: Context, months: number): Promise<string[]> {
  if (months === 0) return [];
  const dropped = await dropReadingMonthsBefore(db, startOfKept(now(), months));
  if (dropped.length > 0) log.info({ months: dropped }, 'dropped readings past retention');
  return dropped;
}
