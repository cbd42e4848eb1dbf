import { listBookingRows } from '#db/queries/list-bookings.ts';
import { findOpenBooking } from '#db/queries/lock-booking.ts';
import { outcomeWords } from '#server/contract/packet-words.ts';
import type { Outcome } from '#server/contract/words.ts';
import { lockOpenBooking, storeChange } from '#server/services/bookings/change-booking.ts';
import type { Context } from '#server/services/context.ts';

/** The open booking of a vehicle is done with its job; one that lies ahead, or has no day, is not needed any more. */
export async function closeBookingOf(
  ctx: Context,
  vehicle: { key: number },
  outcome: Outcome,
  now: Date,
): Promise<void> {
  const open = await findOpenBooking(ctx.db, vehicle.key);
  if (open === null) return;
  const [seen] = await listBookingRows(ctx.db, { ofDepots: null, id: open.row.id });
  if (seen === undefined) return;
  const row = await lockOpenBooking(ctx, seen, seen.booking.version, now);
  const isBegun = row.startsAt !== null && row.startsAt <= now;
  await storeChange(
    ctx,
    isBegun ? 'booking_done' : 'booking_cancelled',
    seen,
    row,
    isBegun
      ? { state: 'done', reason: outcomeWords[outcome] }
      : { state: 'cancelled', reason: `Job closed before its day: ${outcomeWords[outcome]}` },
    now,
  );
}
