import type { Booking, BookingsQuery } from '#server/contract/bookings.ts';
import type { Context } from '#server/services/context.ts';
import { type Cell, writeCsv } from '#server/services/csv/write-csv.ts';
import { listBookings } from './list-bookings.ts';

const columns: Record<string, (booking: Booking) => Cell> = {
  id: (booking) => booking.id,
  depot: (booking) => booking.depot,
  day: (booking) => booking.day,
  from: (booking) => booking.from,
  to: (booking) => booking.to,
  hours: (booking) => booking.hours,
  bay: (booking) => booking.bay,
  vehicle: (booking) => booking.vehicle,
  platform: (booking) => booking.platform,
  grade: (booking) => booking.grade,
  state: (booking) => booking.state,
  past: (booking) => booking.past,
  note: (booking) => booking.note,
  reason: (booking) => booking.reason,
  starts_at: (booking) => booking.starts_at,
  ends_at: (booking) => booking.ends_at,
  created_at: (booking) => booking.created_at,
  created_by: (booking) => booking.created_by,
  changed_at: (booking) => booking.changed_at,
  changed_by: (booking) => booking.changed_by,
};

/** Bookings as CSV, all that the filters let through. */
export async function bookingsAsCsv(ctx: Context, query: BookingsQuery): Promise<string> {
  const bookings = await listBookings(ctx, query);
  return writeCsv(
    Object.keys(columns),
    bookings.map((booking) => Object.values(columns).map((read) => read(booking))),
  );
}
