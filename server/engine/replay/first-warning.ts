import type { AskedOf, JudgedAsking, LifeEvent, VehicleDays } from './replay-model.ts';

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
 * From the beginning of the last asking that led to it, or of those that it took over from without a break once a horizon was
 * driven: the vehicle stood on the list all the while. Where that is further off than the horizon, from the first day within
 * it: notice = mileage and moment of the event less those of the end of that day. An earlier asking that was let go again for
 * 14 days, as a planner would have let it go too, lends it nothing, nor does one that a shop answered with no fault found.
 *
 * @param askings  of the life, judged
 * @param event    of the life
 * @param days     of the vehicle
 * @param how      end of each day, ms, and the horizon, km
 * @returns notice; null where nothing led to it: it was missed
 * Source: own rule. Edges: from 0 km, where the joined odometer stands past the mileage on record, to the horizon. Errors:
 * none.
 * @example firstWarning([], event, days, { dayEndMs: ends, horizonKm: 5_000 }) // null
 */
export function firstWarning(
  askings: readonly JudgedAsking[],
  event: LifeEvent,
  { km }: Pick<VehicleDays, 'km'>,
  { dayEndMs, horizonKm }: Pick<AskedOf, 'dayEndMs' | 'horizonKm'>,
): Warning | null {
  const last = askings.filter(({ verdict }) => verdict === 'found').at(-1);
  if (last === undefined) return null;
  let first: JudgedAsking = last;
  for (let before = askingBefore(askings, first); before !== undefined; before = askingBefore(askings, first))
    first = before;
  let day = first.fromDay;
  const isFar = (one: number) => !(event.km - (km[one] ?? Number.NaN) <= horizonKm);
  while (day < last.lastDay && isFar(day)) day++;
  return {
    day,
    noticeKm: Math.min(horizonKm, Math.max(0, event.km - (km[day] ?? last.fromKm))),
    noticeDays: (event.atMs - (dayEndMs[day] ?? 0)) / DAY_MS,
  };
}

const askingBefore = (
  askings: readonly JudgedAsking[],
  { fromDay }: JudgedAsking,
): JudgedAsking | undefined => askings.find(({ nextDay, isCleared }) => nextDay === fromDay && !isCleared);
