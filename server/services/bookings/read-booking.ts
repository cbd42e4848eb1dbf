import { listBookingRows } from '#db/queries/list-bookings.ts';
import type { Booking } from '#server/contract/bookings.ts';
import type { Context } from '#server/services/context.ts';
import { isWithin } from '#server/services/fleet/other-depots.ts';
import { refuse } from './objection.ts';
import { toBooking } from './to-booking.ts';

/** A booking as it is now. */
export async function readBooking(ctx: Context, id: number, now = ctx.now()): Promise<Booking> {
  return toBooking(ctx, await findBooking(ctx, id), now);
}

async function findBooking({ db, actor }: Context, id: number) {
  const [row] = await listBookingRows(db, { ofDepots: actor.depots, id });
  if (row === undefined)
    throw refuse({ code: 'not_found', field: 'id', message: `There is no booking ${id}.` });
  return row;
}

/** A booking that the one who asks may change: they work for the depot of the vehicle and for that of the bay. */
export async function findOwnBooking(ctx: Context, id: number) {
  const row = await findBooking(ctx, id);
  for (const [what, depot] of [
    [`vehicle ${row.unit}`, row.home],
    ['the bay', row.booking.depot],
  ] as const)
    if (!isWithin(ctx, depot))
      throw refuse({
        code: 'not_allowed',
        field: 'depot',
        message: `This booking is not yours to change: ${what} is of a depot that you do not work for.`,
      });
  return row;
}
