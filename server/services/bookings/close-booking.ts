import type { z } from 'zod';
import type { BookingRow } from '#db/queries/list-bookings.ts';
import type { Booking, bookingCancel, bookingDone, bookingPutOff } from '#server/contract/bookings.ts';
import { localOf } from '#server/services/calendar/local-time.ts';
import type { Context } from '#server/services/context.ts';
import { sayDay } from './booking-words.ts';
import { CHANGE_IN_DOUBT, lockOpenBooking, type OpenRow, storeChange } from './change-booking.ts';
import { collides, refuse } from './objection.ts';
import { findOwnBooking } from './read-booking.ts';
import { storeOrDoubt } from './store-or-doubt.ts';
import { hoursOf } from './to-booking.ts';

/** Takes the day from a booking, which then waits for another one. */
export function putOffBooking(
  ctx: Context,
  id: number,
  { version, reason, leaves_hold: leavesHold }: z.output<typeof bookingPutOff>,
): Promise<Booking> {
  return changeOpen(ctx, id, version, async (inside, seen, row, now) => {
    if (row.state === 'put_off')
      throw refuse(collides('state', `This booking of ${seen.unit} is put off already.`));
    refuseToLeaveHold(seen, leavesHold);
    const hours = hoursOf(row);
    const set = {
      state: 'put_off' as const,
      bay: null,
      day: null,
      startsAt: null,
      endsAt: null,
      hours,
      reason,
    };
    return storeChange(inside, 'booking_put_off', seen, row, set, now);
  });
}

export function cancelBooking(
  ctx: Context,
  id: number,
  { version, reason, leaves_hold: leavesHold }: z.output<typeof bookingCancel>,
): Promise<Booking> {
  return changeOpen(ctx, id, version, async (inside, seen, row, now) => {
    refuseToLeaveHold(seen, leavesHold);
    return storeChange(inside, 'booking_cancelled', seen, row, { state: 'cancelled', reason }, now);
  });
}

/** Says that the vehicle was inspected. */
export function closeBooking(
  ctx: Context,
  id: number,
  { version, reason }: z.output<typeof bookingDone>,
): Promise<Booking> {
  return changeOpen(ctx, id, version, async (inside, seen, row, now) => {
    if (row.startsAt === null || row.day === null)
      throw refuse(
        collides('state', `This booking of ${seen.unit} is put off: give it the day on which it was done.`),
      );
    if (row.startsAt > now) {
      const { day, clock } = localOf(seen.timeZone, row.startsAt);
      throw refuse(
        collides(
          'state',
          `The inspection of ${seen.unit} has not begun: it is booked for ${sayDay(day, localOf(seen.timeZone, now).day)} ${clock}.`,
        ),
      );
    }
    return storeChange(inside, 'booking_done', seen, row, { state: 'done', reason: reason ?? null }, now);
  });
}

/** Changes a booking that is open and still as the one who asks saw it. */
function changeOpen(
  ctx: Context,
  id: number,
  version: number,
  work: (inside: Context, seen: BookingRow, row: OpenRow, now: Date) => Promise<Booking>,
): Promise<Booking> {
  return storeOrDoubt(ctx, CHANGE_IN_DOUBT, async (inside) => {
    const now = ctx.now();
    const seen = await findOwnBooking(inside, id);
    return work(inside, seen, await lockOpenBooking(inside, seen, version, now), now);
  });
}

/** A vehicle on hold loses its day only where somebody says that they know it. */
function refuseToLeaveHold({ unit, grade }: BookingRow, leavesHold: boolean): void {
  if (grade !== 'hold' || leavesHold) return;
  throw refuse(
    collides(
      'leaves_hold',
      `${unit} is graded hold and must not be dispatched before inspection, and this would leave it without a day. Move the booking to another day, or send leaves_hold: true to say that it stays off the road.`,
    ),
  );
}
