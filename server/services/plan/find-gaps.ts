import type { BayDay, BayGap } from '#server/engine/planning/planning-model.ts';
import type { Taken } from '#server/services/bookings/find-gap.ts';
import type { PlannedDepot } from '#server/services/bookings/object-to-day.ts';
import { openSpan } from '#server/services/bookings/object-to-time.ts';
import type { DayOfDepot } from '#server/services/calendar/depot-days.ts';

/** All time zones of today are whole quarters of an hour from UTC. */
const QUARTER_MS = 900_000;

/** Quarters of an hour since 1970: what begins within one begins with the next. */
const up = (at: Date): number => Math.ceil(at.getTime() / QUARTER_MS);
const down = (at: Date): number => Math.floor(at.getTime() / QUARTER_MS);

export const momentOfQuarter = (quarter: number): Date => new Date(quarter * QUARTER_MS);

/** What is still free in the bays of a depot on a day that it works, from now on. `taken` is what is booked at it. */
export function findGaps(depot: PlannedDepot, day: DayOfDepot, taken: readonly Taken[], now: Date): BayDay {
  const open = openSpan(depot, day);
  if (open === null) throw new Error('findGaps requires a day on which the depot works');
  const first = Math.max(up(open.startsAt), up(now));
  const last = Math.max(first, down(open.endsAt));
  const gaps = Array.from({ length: day.bays }, (_, i) => i + 1).flatMap((bay): BayGap[] => {
    const own = taken
      .filter((one) => one.bay === bay)
      .toSorted((a, b) => a.startsAt.getTime() - b.startsAt.getTime());
    const found: BayGap[] = [];
    let at = first;
    for (const { startsAt, endsAt } of own) {
      const until = Math.min(last, down(startsAt));
      if (until > at) found.push({ bay, fromQuarter: at, toQuarter: until });
      at = Math.max(at, up(endsAt));
    }
    if (last > at) found.push({ bay, fromQuarter: at, toQuarter: last });
    return found;
  });
  return { gaps, extra: { fromQuarter: first, toQuarter: last } };
}
