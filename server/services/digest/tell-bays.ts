import { asc } from 'drizzle-orm';
import type { SeenPart } from '#db/queries/digest/seen-part.ts';
import { sumBookedHours } from '#db/queries/digest/week-bookings.ts';
import { depots } from '#db/schema/fleet.ts';
import type { Digest } from '#server/contract/digest.ts';
import { dayOfDepot, listDays } from '#server/services/calendar/depot-days.ts';
import { hoursBetween } from '#server/services/calendar/local-time.ts';
import type { Context } from '#server/services/context.ts';
import { type DigestWeek, sundayOf } from './digest-week.ts';

/** Hours that the bays of each depot have in the week, Monday to Sunday, and those that are booked. */
export async function tellBays(
  { db }: Context,
  { sight, depot }: SeenPart,
  week: DigestWeek,
): Promise<Digest['ahead']> {
  const sunday = sundayOf(week);
  const [all, booked] = await Promise.all([
    db.select().from(depots).orderBy(asc(depots.name), asc(depots.id)),
    sumBookedHours(db, week.monday, sunday),
  ]);
  const taken = new Map(booked.map((one) => [one.depot, one]));
  const days = listDays(week.monday, sunday);
  return all
    .filter(({ id }) => (sight.depots?.includes(id) ?? true) && (depot === undefined || id === depot))
    .map((one) => ({
      depot: one.id,
      name: one.name,
      bay_hours: days
        .map((day) => dayOfDepot(one, day))
        .reduce((sum, { bays, hours }) => sum + (hours === null ? 0 : bays * hoursBetween(hours)), 0),
      booked_hours: Math.round((taken.get(one.id)?.hours ?? 0) * 100) / 100,
      bookings: taken.get(one.id)?.bookings ?? 0,
    }));
}
