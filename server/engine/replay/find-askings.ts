import type { AskedOf, Asking, VehicleDays } from './replay-model.ts';

/** So many days off the list in a row end an asking. Own choice: a fortnight, in which a shop could have been told. */
export const OFF_DAYS = 14;

/**
 * Inspections of one vehicle that were asked for.
 *
 * One begins on a day that asks after at least 14 that did not, or in a new life, and goes on to its last day that asks. Once
 * the vehicle has driven the horizon, or a shop has found no fault, an inspection was due and is over: where it is still asked
 * for, the next one begins on that day. So a way that never lets go asks for one inspection a horizon, and none of them is
 * credited with more notice than that.
 *
 * @param days  of the vehicle
 * @param asks  whether the inspection is asked for, by day; 0 for not
 * @param of    what it is held against
 * @returns askings in order; one that stands on the last day, or within 14 days of it, is open
 * Source: own rule. Edges: days without mileage ask for nothing; one that asks from the first day on counts; after the event
 * of its life an asking stands as one, however far the vehicle is driven with it. Errors: none.
 * @example findAskings({ km: [100, 200], life: [1, 1] }, [0, 1], { courses: [], dayEndMs: [1, 2], horizonKm: 5_000 }) // one asking, from day 1
 */
export function findAskings(days: VehicleDays, asks: ArrayLike<number>, of: AskedOf): Asking[] {
  const askings: Asking[] = [];
  for (let day = 0; day < asks.length; day++) {
    const km = days.km[day] ?? Number.NaN;
    if (!asks[day] || Number.isNaN(km)) continue;
    const life = days.life[day] ?? 0;
    const last = askings.at(-1);
    const goesOn = last !== undefined && last.life === life && day - last.lastDay <= OFF_DAYS;
    if (goesOn && !isOver(last, day, km, of)) Object.assign(last, { lastDay: day, lastKm: km });
    else {
      if (goesOn) last.nextDay = day;
      askings.push({
        life,
        fromDay: day,
        lastDay: day,
        fromKm: km,
        lastKm: km,
        isOpen: false,
        nextDay: null,
      });
    }
  }
  const last = askings.at(-1);
  if (last !== undefined) last.isOpen = asks.length - 1 - last.lastDay < OFF_DAYS;
  return askings;
}

function isOver(asking: Asking, day: number, km: number, { courses, dayEndMs, horizonKm }: AskedOf): boolean {
  const course = courses.find(({ life }) => life === asking.life);
  const [beganMs, endMs] = [dayEndMs[asking.fromDay] ?? 0, dayEndMs[day] ?? 0];
  if (course?.clearedMs.some((ms) => ms >= beganMs && ms < endMs)) return true;
  const hasCome = course !== undefined && course.event !== null && course.event.atMs < endMs;
  return km - asking.fromKm >= horizonKm && !hasCome;
}
