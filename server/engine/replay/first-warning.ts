import type { JudgedAsking, LifeEvent } from './replay-model.ts';

const DAY_MS = 86_400_000;

/** What a failure was announced by. */
export interface Warning {
  /** number of the day */
  day: number;
  noticeKm: number;
  noticeDays: number;
}

/**
 * How long before a failure its inspection was asked for.
 *
 * From the beginning of the last asking that led to it: notice = mileage and moment of the event less those of the end of
 * that day. An earlier asking that was let go again for 14 days, as a planner would have let it go too, lends it nothing.
 *
 * @param askings  of the life, judged
 * @param event    of the life
 * @param dayEndMs end of each day, ms
 * @returns notice; null where nothing led to it: it was missed
 * Source: own rule. Edges: 0 km at the least, where the joined odometer stands past the mileage on record. Errors: none.
 * @example firstWarning([], event, ends) // null
 */
export function firstWarning(
  askings: readonly JudgedAsking[],
  event: LifeEvent,
  dayEndMs: readonly number[],
): Warning | null {
  const last = askings.filter(({ verdict }) => verdict === 'found').at(-1);
  if (last === undefined) return null;
  return {
    day: last.fromDay,
    noticeKm: Math.max(0, event.km - last.fromKm),
    noticeDays: (event.atMs - (dayEndMs[last.fromDay] ?? 0)) / DAY_MS,
  };
}
