import { findHolds } from '#db/queries/uncovered-holds.ts';
import type { UncoveredHold } from '#server/contract/bookings.ts';
import { localOf } from '#server/services/calendar/local-time.ts';
import type { Context } from '#server/services/context.ts';
import { sightOf } from '#server/services/sight.ts';
import { objectToPlanned } from './object-to-planned.ts';
import { toListedBooking } from './to-listed-booking.ts';

/**
 * Vehicles on hold that have no booked day ahead of them and that nobody has inspected lately and since, worst first:
 * those of the one who asks, or of one depot. What was put off, is past and not closed, or no longer fits its depot's
 * calendar or the vehicle's days, gives no day.
 */
export async function listUncoveredHolds(
  { db, now, actor }: Pick<Context, 'db' | 'now' | 'actor'>,
  { depot }: { depot?: string | undefined } = {},
): Promise<UncoveredHold[]> {
  const at = now();
  const rows = await findHolds(db, { sight: sightOf(actor), depot, now: at });
  return rows.flatMap((row): UncoveredHold[] => {
    const { unit, depot: home, unavailable, since, booking, bookingDepot, cancelReason } = row;
    const told = { vehicle: unit, depot: home, since: since?.toISOString() ?? null };
    if (booking === null || bookingDepot === null)
      return [{ ...told, booking: null, reason: cancelReason, why_not: null }];
    const listed = toListedBooking(booking, bookingDepot.timeZone, at);
    const today = localOf(bookingDepot.timeZone, at).day;
    const whyNot = listed.past ? null : objectToPlanned(bookingDepot, { booking, unit, unavailable }, today);
    if (booking.state === 'booked' && !listed.past && whyNot === null) return [];
    const reason = booking.state === 'put_off' ? booking.reason : null;
    return [{ ...told, booking: listed, reason, why_not: whyNot }];
  });
}
