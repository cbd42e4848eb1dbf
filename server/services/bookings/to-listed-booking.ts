import type { bookings } from '#db/schema/planning.ts';
import type { ListedBooking } from '#server/contract/bookings.ts';
import { localOf } from '#server/services/calendar/local-time.ts';

type Row = Pick<
  typeof bookings.$inferSelect,
  'id' | 'state' | 'depot' | 'bay' | 'day' | 'startsAt' | 'endsAt'
>;

/** What the list and the vehicle's screen show of a booking; `timeZone` is that of its depot. */
export function toListedBooking(row: Row, timeZone: string, now: Date): ListedBooking {
  const { id, state, depot, bay, day, startsAt, endsAt } = row;
  return {
    id,
    state,
    depot,
    bay,
    day,
    from: startsAt === null ? null : localOf(timeZone, startsAt).clock,
    past: state === 'booked' && endsAt !== null && endsAt <= now,
  };
}
