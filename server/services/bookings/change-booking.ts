import { eq } from 'drizzle-orm';
import type { BookingRow } from '#db/queries/list-bookings.ts';
import { lockBooking } from '#db/queries/lock-booking.ts';
import { bookings } from '#db/schema/planning.ts';
import type { Booking } from '#server/contract/bookings.ts';
import type { ChangeAction } from '#server/contract/words.ts';
import { localOf } from '#server/services/calendar/local-time.ts';
import { noteChanges } from '#server/services/changes/note-changes.ts';
import type { Context } from '#server/services/context.ts';
import { sayDay, sayMoment } from './booking-words.ts';
import { noteBooking } from './note-booking.ts';
import { collides, refuse } from './objection.ts';
import { readBooking } from './read-booking.ts';

export const CHANGE_IN_DOUBT = 'this change may be stored';

export type Row = BookingRow['booking'];
export type OpenRow = Row & { state: 'booked' | 'put_off' };

/**
 * Locks a booking that was read as `seen`, and refuses it where somebody has changed it since the one who asks saw it, or
 * where it is closed.
 */
export async function lockOpenBooking(
  ctx: Context,
  seen: BookingRow,
  version: number,
  now: Date,
): Promise<OpenRow> {
  const row = await lockBooking(ctx.db, seen.booking.id);
  if (row === null) throw new Error('a booking is never deleted while its vehicle is there');
  if (row.version !== version || row.version !== seen.booking.version)
    throw refuse(
      collides(
        'version',
        `${row.changedBy} changed this booking of ${seen.unit} meanwhile (${sayMoment(seen.timeZone, row.changedAt)}): ${sayState(row, seen, now)}. Look at it again.`,
      ),
    );
  const { state } = row;
  if (state === 'cancelled' || state === 'done')
    throw refuse(
      collides(
        'state',
        `This booking of ${seen.unit} is closed: ${row.changedBy} ${state === 'done' ? 'said that it is done' : 'cancelled it'} (${sayMoment(seen.timeZone, row.changedAt)}). Book the vehicle anew.`,
      ),
    );
  return { ...row, state };
}

function sayState(row: Row, { booking, depotName, timeZone }: BookingRow, now: Date): string {
  if (row.state === 'put_off') return 'it is put off';
  if (row.state === 'cancelled') return 'it is cancelled';
  if (row.state === 'done') return 'it is done';
  if (row.day === null || row.startsAt === null) return 'it has no day';
  const { clock } = localOf(timeZone, row.startsAt);
  const where = row.depot === booking.depot ? depotName : row.depot;
  return `it is now at ${where}, bay ${row.bay}, ${sayDay(row.day, localOf(timeZone, now).day)} ${clock}`;
}

/** Stores a change of a locked booking, and who made it. */
export async function storeChange(
  ctx: Context,
  action: ChangeAction,
  seen: BookingRow,
  before: Row,
  set: Partial<Omit<Row, 'id' | 'version'>>,
  now: Date,
  timeZone = seen.timeZone,
): Promise<Booking> {
  const [after] = await ctx.db
    .update(bookings)
    .set({ ...set, version: before.version + 1, changedAt: now, changedBy: ctx.actor.name })
    .where(eq(bookings.id, before.id))
    .returning();
  if (after === undefined) throw new Error('a locked booking must be there');
  await noteChanges(ctx.db, ctx, [
    noteBooking(action, seen.unit, { row: before, timeZone: seen.timeZone }, { row: after, timeZone }),
  ]);
  return readBooking(ctx, after.id, now);
}
