import { findUncoveredHolds } from '#db/queries/uncovered-holds.ts';
import type { UncoveredHold } from '#server/contract/bookings.ts';
import type { Context } from '#server/services/context.ts';
import { sightOf } from '#server/services/sight.ts';
import { toListedBooking } from './to-listed-booking.ts';

/**
 * Vehicles on hold that have no booked day ahead of them and that nobody has inspected since, worst first: those of the
 * one who asks, or of one depot. What was put off, or is past and not closed, gives no day.
 */
export async function listUncoveredHolds(
  { db, now, actor }: Pick<Context, 'db' | 'now' | 'actor'>,
  { depot }: { depot?: string | undefined } = {},
): Promise<UncoveredHold[]> {
  const at = now();
  const rows = await findUncoveredHolds(db, { sight: sightOf(actor), depot, now: at });
  return rows.map(({ unit, depot: home, since, booking, timeZone, cancelReason }) => ({
    vehicle: unit,
    depot: home,
    since: since?.toISOString() ?? null,
    booking: booking === null ? null : toListedBooking(booking, timeZone ?? 'UTC', at),
    reason: booking === null ? cancelReason : booking.state === 'put_off' ? booking.reason : null,
  }));
}
