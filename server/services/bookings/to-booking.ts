import type { BookingRow } from '#db/queries/list-bookings.ts';
import type { Booking } from '#server/contract/bookings.ts';
import { localOf } from '#server/services/calendar/local-time.ts';
import type { Context } from '#server/services/context.ts';
import { isWithin } from '#server/services/fleet/other-depots.ts';
import { toListedBooking } from './to-listed-booking.ts';

const HOUR_MS = 3_600_000;

/**
 * A booking as the interface shows it. A vehicle of another depot is named, as it has the bay; how it is graded is shown
 * to those who see the vehicle itself.
 */
export function toBooking(ctx: Pick<Context, 'actor'>, row: BookingRow, now: Date): Booking {
  const { booking, unit, home, platform, grade, timeZone } = row;
  const { startsAt, endsAt } = booking;
  return {
    ...toListedBooking(booking, timeZone, now),
    vehicle: unit,
    platform,
    grade: isWithin(ctx, home) ? grade : null,
    to: endsAt === null ? null : endOfDay(localOf(timeZone, endsAt).clock),
    starts_at: startsAt?.toISOString() ?? null,
    ends_at: endsAt?.toISOString() ?? null,
    hours: hoursOf(booking),
    note: booking.note,
    reason: booking.reason,
    version: booking.version,
    created_at: booking.createdAt.toISOString(),
    created_by: booking.createdBy,
    changed_at: booking.changedAt.toISOString(),
    changed_by: booking.changedBy,
  };
}

/** How long a bay is taken, or is to be once there is a day; null where nobody has said how long. */
export const hoursOf = ({
  startsAt,
  endsAt,
  hours,
}: Pick<BookingRow['booking'], 'startsAt' | 'endsAt' | 'hours'>): number | null =>
  startsAt === null || endsAt === null ? hours : (endsAt.getTime() - startsAt.getTime()) / HOUR_MS;

/** A booking ends on the day on which it began: midnight is the end of that day. */
export const endOfDay = (clock: string): string => (clock === '00:00' ? '24:00' : clock);
