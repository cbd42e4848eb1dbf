import { eq } from 'drizzle-orm';
import { listBookingRows } from '#db/queries/list-bookings.ts';
import { depots } from '#db/schema/fleet.ts';
import type { Depot } from '#server/contract/fleet.ts';
import type { DepotPreview } from '#server/contract/settings.ts';
import {
  objectToBay,
  objectToClosedDay,
  type PlannedDepot,
} from '#server/services/bookings/object-to-day.ts';
import { objectToHours } from '#server/services/bookings/object-to-time.ts';
import { dayOfDepot } from '#server/services/calendar/depot-days.ts';
import { localOf, momentOf } from '#server/services/calendar/local-time.ts';
import type { Context } from '#server/services/context.ts';

/** Which bookings of today and later a changed depot leaves without room. Nothing is stored. */
export async function previewDepot(ctx: Context, changed: Depot): Promise<DepotPreview> {
  const [before] = await ctx.db.select().from(depots).where(eq(depots.id, changed.id));
  if (before === undefined) return { misfits: [], open: 0 };
  const depot: PlannedDepot = {
    id: changed.id,
    name: changed.name,
    bays: changed.bays,
    timeZone: changed.time_zone,
    week: changed.week,
    specialDays: changed.special_days,
  };
  const today = localOf(depot.timeZone, ctx.now()).day;
  const rows = await listBookingRows(ctx.db, {
    ofDepots: null,
    at: [changed.id],
    states: ['booked'],
    fromDay: today,
  });
  const misfits = rows.flatMap(({ booking, unit }) => {
    const { id, day, bay, startsAt, endsAt } = booking;
    if (day === null || bay === null || startsAt === null || endsAt === null) return [];
    // Bookings keep their local time where the zone changes, see keep-local-times.ts.
    const from = localOf(before.timeZone, startsAt).clock;
    const starts = momentOf(depot.timeZone, day, from);
    const span = {
      startsAt: starts,
      endsAt: new Date(starts.getTime() + endsAt.getTime() - startsAt.getTime()),
    };
    const ofDay = dayOfDepot(depot, day);
    const objection =
      objectToClosedDay(depot, day, today) ??
      objectToBay(depot, ofDay, bay, today) ??
      objectToHours(depot, ofDay, span, today);
    if (objection === null) return [];
    const to = localOf(depot.timeZone, span.endsAt).clock;
    return [{ booking: id, vehicle: unit, day, from, to, bay, why: objection.message }];
  });
  return { misfits, open: rows.length };
}
