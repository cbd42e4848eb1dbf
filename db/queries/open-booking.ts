import { and, eq, inArray } from 'drizzle-orm';
import { vehicles } from '#db/schema/fleet.ts';
import { bookings } from '#db/schema/planning.ts';

/** Joins the one booking of a vehicle that is neither cancelled nor done. */
export const openBooking = and(
  eq(bookings.vehicle, vehicles.key),
  inArray(bookings.state, ['booked', 'put_off']),
);
