import { and, asc, eq, ne, sql } from 'drizzle-orm';
import type { Database } from '#db/client.ts';
import { assessments, gradeChanges } from '#db/schema/analysis.ts';
import { depots, vehicles } from '#db/schema/fleet.ts';
import { bookings } from '#db/schema/planning.ts';
import { readLastInspections } from './last-inspection.ts';
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

/** Vehicles graded hold that nobody has inspected lately and since, with their open bookings, worst first. */
export async function findHolds(
  db: Database,
  { sight, depot, now }: { sight: Sight; depot: string | undefined; now: Date },
) {
  const holds = await db
    .select({
      key: vehicles.key,
      unit: vehicles.unit,
      depot: vehicles.depot,
      unavailable: vehicles.unavailable,
      since: heldSince,
      cancelReason,
      booking: bookings,
      bookingDepot: depots,
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
      ),
    )
    .orderBy(asc(assessments.rank), asc(vehicles.key));
  const inspections = await readLastInspections(
    db,
    holds.map(({ key }) => key),
    now,
  );
  return holds.filter(({ key }) => !inspections.has(key));
}
