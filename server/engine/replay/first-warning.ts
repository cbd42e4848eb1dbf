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
 * From the beginning of the last asking that led to it, or, where that began further off than the horizon, from the first day
 * within it: notice = mileage and moment of the event less those of the end of that day. An earlier asking that was let go
 * again for 14 days, as a planner would have let it go too, lends it nothing, nor does one whose inspection was over.
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
  let day = last.fromDay;
  const isFar = (one: number) => !(event.km - (km[one] ?? Number.NaN) <= horizonKm);
  while (day < last.lastDay && isFar(day)) day++;
  return {
    day,
    noticeKm: Math.min(horizonKm, Math.max(0, event.km - (km[day] ?? last.fromKm))),
    noticeDays: (event.atMs - (dayEndMs[day] ?? 0)) / DAY_MS,
  };
}
