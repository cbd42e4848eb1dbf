import { type BookingRow, listBookingRows } from '#db/queries/list-bookings.ts';
import { findDepot } from '#db/queries/lock-booking.ts';
import type { Booking, BookingsQuery } from '#server/contract/bookings.ts';
import { addDays } from '#server/services/calendar/depot-days.ts';
import { localOf } from '#server/services/calendar/local-time.ts';
import type { Context } from '#server/services/context.ts';
import { refuse, wrong } from './objection.ts';
import { toBooking } from './to-booking.ts';

/**
 * Bookings of the days asked for, from today at each depot where no first day is named, or from the first ever where one
 * vehicle is. Those put off have no day and are always there; a cancelled one without a day stands on the day on which it
 * was cancelled.
 */
export async function listBookings(ctx: Context, query: BookingsQuery): Promise<Booking[]> {
  const { depot, vehicle, state, from, to } = query;
  if (from !== undefined && to !== undefined && to < from)
    throw refuse(wrong('to', `The last day, ${to}, is before the first, ${from}.`));
  if (depot !== undefined && (await findDepot(ctx.db, depot)) === null)
    throw refuse(wrong('depot', `No depot '${depot}' is known.`));
  const now = ctx.now();
  const fromToday = from === undefined && vehicle === undefined;
  const rows = await listBookingRows(ctx.db, {
    ofDepots: ctx.actor.depots,
    at: depot === undefined ? undefined : [depot],
    vehicle,
    states: state === undefined ? undefined : [state],
    // No place on earth is a day behind UTC and more.
    fromDay: fromToday ? addDays(now.toISOString().slice(0, 10), -1) : from,
    toDay: to,
  });
  const isAskedFor = (row: BookingRow): boolean => {
    const day = dayOf(row);
    if (day === null) return true;
    const first = fromToday ? localOf(row.timeZone, now).day : from;
    return (first === undefined || day >= first) && (to === undefined || day <= to);
  };
  return rows.filter(isAskedFor).map((row) => toBooking(ctx, row, now));
}

const dayOf = ({ booking, timeZone }: BookingRow): string | null =>
  booking.day ?? (booking.state === 'cancelled' ? localOf(timeZone, booking.changedAt).day : null);
