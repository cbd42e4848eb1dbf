import type { Booking } from '#server/contract/bookings.ts';
import { SlipdriftError } from '#server/errors.ts';
import { bookVehicle } from '#server/services/bookings/book-vehicle.ts';
import { closeBooking } from '#server/services/bookings/close-booking.ts';
import { addDays } from '#server/services/calendar/depot-days.ts';
import type { Context } from '#server/services/context.ts';
import { listRanking } from '#server/services/inspection/list-ranking.ts';

const DAY_MS = 86_400_000;
const DAYS_TRIED = 14;

/** What the planner of a week ago booked for the days that have passed since. */
export async function bookWeekBefore(ctx: Context): Promise<Booking[]> {
  const { rows } = await listRanking(ctx, { grade: 'hold,book', limit: 10 });
  const booked: Booking[] = [];
  for (const i of [1, 3, 8]) {
    const booking = await bookSoon(ctx, rows[i]?.vehicle, 2);
    if (booking !== null) booked.push(booking);
  }
  return booked;
}

/** What has happened since: the first came in, the second nobody has closed, some are booked or wait for a day. */
export async function bookSince(ctx: Context, [first, , third]: readonly Booking[]): Promise<void> {
  await close(ctx, first, 'Lining debris in the pan. A converter is ordered; the vehicle stands until then.');
  await close(ctx, third, 'Fluid dark, no debris. Fluid and filter changed; look again in two weeks.');
  const yesterday = { ...ctx, now: () => new Date(ctx.now().getTime() - DAY_MS) };
  const { rows } = await listRanking(ctx, { grade: 'hold,book', booking: 'none', limit: 12 });
  const open = rows.filter(({ vehicle }) => vehicle !== first?.vehicle && vehicle !== third?.vehicle);
  for (const i of [1, 6]) await bookSoon(yesterday, open[i]?.vehicle, 2);
  const waiting = open[7]?.vehicle;
  if (waiting !== undefined)
    await bookVehicle(yesterday, { vehicle: waiting, reason: 'No driver to bring it before Thursday.' });
}

async function close(ctx: Context, booking: Booking | undefined, reason: string): Promise<void> {
  if (booking?.ends_at == null || new Date(booking.ends_at) > ctx.now()) return;
  const { id, version, ends_at: endsAt } = booking;
  await closeBooking({ ...ctx, now: () => new Date(endsAt) }, id, { version, reason });
}

/** Books the first day that the depot and the vehicle have, so many days ahead or later. */
async function bookSoon(
  ctx: Context,
  vehicle: string | undefined,
  daysAhead: number,
): Promise<Booking | null> {
  if (vehicle === undefined) return null;
  const today = ctx.now().toISOString().slice(0, 10);
  for (let ahead = daysAhead; ahead < daysAhead + DAYS_TRIED; ahead += 1)
    try {
      return await bookVehicle(ctx, { vehicle, day: addDays(today, ahead) });
    } catch (error) {
      if (!(error instanceof SlipdriftError) || error.status >= 500) throw error;
    }
  return null;
}
