import { eq } from 'drizzle-orm';
import { type BookingRow, listBookingRows } from '#db/queries/list-bookings.ts';
import { depots } from '#db/schema/fleet.ts';
import type { Depot } from '#server/contract/fleet.ts';
import type { DepotPreview } from '#server/contract/settings.ts';
import type { PlannedDepot } from '#server/services/bookings/object-to-day.ts';
import { objectToPlanned } from '#server/services/bookings/object-to-planned.ts';
import { localOf } from '#server/services/calendar/local-time.ts';
import type { Context } from '#server/services/context.ts';
import { moveToZone } from './keep-local-times.ts';

/** Which bookings of today and later fit a depot now and would not after a change. Nothing is stored. */
export async function previewDepot(ctx: Context, changed: Depot): Promise<DepotPreview> {
  const [before] = await ctx.db.select().from(depots).where(eq(depots.id, changed.id));
  if (before === undefined) return { misfits: [], open: 0 };
  const { id, name, bays, time_zone: timeZone, week, special_days: specialDays } = changed;
  const after: PlannedDepot = { id, name, bays, timeZone, week, specialDays };
  const today = localOf(before.timeZone, ctx.now()).day;
  const rows = await listBookingRows(ctx.db, {
    ofDepots: null,
    at: [id],
    states: ['booked'],
    fromDay: today,
  });
  const misfits = rows.flatMap((row) => {
    if (objectToPlanned(before, row, today) !== null) return [];
    const moved = moveRow(row, before.timeZone, timeZone);
    const why = objectToPlanned(after, moved, today);
    const { id: booking, day, bay, startsAt, endsAt } = moved.booking;
    if (why === null || day === null || bay === null || startsAt === null || endsAt === null) return [];
    const [from = '', to = ''] = [startsAt, endsAt].map((at) => localOf(timeZone, at).clock);
    return [{ booking, vehicle: row.unit, day, from, to, bay, why }];
  });
  return { misfits, open: rows.length };
}

function moveRow(row: BookingRow, from: string, to: string): BookingRow {
  const span = moveToZone(row.booking, from, to);
  return span === null ? row : { ...row, booking: { ...row.booking, ...span } };
}
