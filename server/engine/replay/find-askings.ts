import type { Asking, VehicleDays } from './replay-model.ts';

/** So many days off the list in a row end an asking. Own choice: a fortnight, in which a shop could have been told. */
export const OFF_DAYS = 14;

/**
 * Times that inspections of one vehicle were asked for.
 *
 * A time begins on a day that asks after at least 14 that did not, or in a new life, and goes on to its last day that asks.
 *
 * @param days  of the vehicle
 * @param asks  whether the inspection is asked for, by day; 0 for not
 * @returns askings in order; one that stands on the last day, or within 14 days of it, is open
 * Source: own rule. Edges: days without mileage ask for nothing; one that asks from the first day on counts. Errors: none.
 * @example findAskings({ km: [100, 200], life: [1, 1] }, [0, 1]) // one asking, from day 1
 */
export function findAskings(days: VehicleDays, asks: ArrayLike<number>): Asking[] {
  const askings: Asking[] = [];
  for (let day = 0; day < asks.length; day++) {
    const km = days.km[day] ?? Number.NaN;
    if (!asks[day] || Number.isNaN(km)) continue;
    const life = days.life[day] ?? 0;
    const last = askings.at(-1);
    const goesOn = last !== undefined && last.life === life && day - last.lastDay <= OFF_DAYS;
    if (goesOn) Object.assign(last, { lastDay: day, lastKm: km });
    else askings.push({ life, fromDay: day, lastDay: day, fromKm: km, lastKm: km, isOpen: false });
  }
  const last = askings.at(-1);
  if (last !== undefined) last.isOpen = asks.length - 1 - last.lastDay < OFF_DAYS;
  return askings;
}
