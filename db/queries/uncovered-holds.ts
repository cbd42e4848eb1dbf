import { and, asc, eq, gt, isNull, ne, or, type SQL, sql } from 'drizzle-orm';
import type { Database } from '#db/client.ts';
import { assessments, gradeChanges } from '#db/schema/analysis.ts';
import { depots, vehicles } from '#db/schema/fleet.ts';
import { bookings } from '#db/schema/planning.ts';
import { openBooking } from './open-booking.ts';
import { type Sight, seenBy } from './seen-vehicles.ts';

/** When the grade that a vehicle has now was given to it. */
const heldSince = sql<Date | null>`(
  select max(${gradeChanges.at}) from ${gradeChanges}
  where ${gradeChanges.vehicle} = ${vehicles.key} and ${gradeChanges.to} = 'hold')`.mapWith(gradeChanges.at);

/** Of the last of its cancelled bookings, if that was cancelled since. */
const cancelReason = sql<string | null>`(
  select b.reason from bookings b
  where b.vehicle = ${vehicles.key} and b.state = 'cancelled' and b.changed_at >= ${heldSince}
  order by b.changed_at desc, b.id desc limit 1)`;

/** An inspection that ended before the vehicle was held says nothing of why it is held. */
const inspectedSince = sql`exists (
  select from bookings b
  where b.vehicle = ${vehicles.key} and b.state = 'done' and b.ends_at > ${heldSince})`;

/** Vehicles graded hold without a booked day ahead that nobody has inspected since, worst first. */
export function findUncoveredHolds(
  db: Database,
  { sight, depot, now }: { sight: Sight; depot: string | undefined; now: Date },
) {
  const hasDayAhead: SQL | undefined = and(eq(bookings.state, 'booked'), gt(bookings.endsAt, now));
  return db
    .select({
      key: vehicles.key,
      unit: vehicles.unit,
      depot: vehicles.depot,
      since: heldSince,
      cancelReason,
      booking: bookings,
      timeZone: depots.timeZone,
    })
    .from(assessments)
    .innerJoin(vehicles, eq(vehicles.key, assessments.vehicle))
    .leftJoin(bookings, openBooking)
    .leftJoin(depots, eq(depots.id, bookings.depot))
    .where(
      and(
        eq(assessments.grade, 'hold'),
        ne(vehicles.retired, true),
        seenBy(sight),
        depot === undefined ? undefined : eq(vehicles.depot, depot),
        or(isNull(bookings.id), sql`not ${hasDayAhead}`),
        sql`not ${inspectedSince}`,
      ),
    )
    .orderBy(asc(assessments.rank), asc(vehicles.key));
}
