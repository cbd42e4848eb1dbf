import type { BookingRow } from '#db/queries/list-bookings.ts';
import { dayOfDepot } from '#server/services/calendar/depot-days.ts';
import { objectToAbsence, objectToBay, objectToClosedDay, type PlannedDepot } from './object-to-day.ts';
import { objectToHours } from './object-to-time.ts';

interface Planned extends Pick<BookingRow, 'unit' | 'unavailable'> {
  booking: Pick<BookingRow['booking'], 'state' | 'day' | 'bay' | 'startsAt' | 'endsAt'>;
}

/** Why a booking cannot be kept as it is, since the calendar of its depot or vehicle has changed; null where it can. */
export function objectToPlanned(
  depot: PlannedDepot,
  { booking, unit, unavailable }: Planned,
  today: string,
): string | null {
  const { state, day, bay, startsAt, endsAt } = booking;
  if (state !== 'booked' || day === null || bay === null || startsAt === null || endsAt === null) return null;
  const ofDay = dayOfDepot(depot, day);
  const objection =
    objectToClosedDay(depot, day, today) ??
    objectToBay(depot, ofDay, bay, today) ??
    objectToHours(depot, ofDay, { startsAt, endsAt }, today) ??
    objectToAbsence(unit, unavailable, day, today);
  return objection?.message ?? null;
}
