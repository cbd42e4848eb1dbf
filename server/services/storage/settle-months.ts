import { listReadingMonths, type ReadingMonth } from '#db/queries/upkeep/list-reading-months.ts';
import { listSettledMonths, type SettledMonth } from '#db/queries/upkeep/list-settled-months.ts';
import { analyseReadings, clearSettled, settleMonth } from '#db/queries/upkeep/settle-month.ts';
import type { Context } from '#server/services/context.ts';
import { tellMonth } from './months.ts';

/** Each reads its month whole: after an upgrade on a long history the rest follows on the next days. */
const MONTHS_A_RUN = 6;
/** A month that late readings have made larger by so much is settled again. */
const GROWN = 1.02;
const GROWN_BYTES = 1024 * 1024;

/** Puts months that are over in order, the newest first, and answers which. */
export async function settleMonths({ db, now }: Context, signal: AbortSignal): Promise<string[]> {
  await clearSettled(db);
  const settled = new Map((await listSettledMonths(db)).map((one) => [one.month, one]));
  const due = (await listReadingMonths(db))
    .filter((one) => tellMonth(one.month, now()) === 'over' && isDue(one, settled.get(one.month)))
    .reverse()
    .slice(0, MONTHS_A_RUN);
  const done: string[] = [];
  for (const one of due) {
    await settleMonth(db, one, now(), signal);
    done.push(one.month);
  }
  if (done.length > 0) await analyseReadings(db);
  return done;
}

export const isDue = (
  { tableId, heapBytes }: Pick<ReadingMonth, 'tableId' | 'heapBytes'>,
  settled: Pick<SettledMonth, 'tableId' | 'heapBytes'> | undefined,
): boolean =>
  settled === undefined || settled.tableId !== tableId || heapBytes > settled.heapBytes * GROWN + GROWN_BYTES;
