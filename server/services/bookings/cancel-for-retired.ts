import { and, asc, eq, inArray } from 'drizzle-orm';
import { depots } from '#db/schema/fleet.ts';
import { bookings } from '#db/schema/planning.ts';
import type { NotedChange } from '#server/services/changes/note-changes.ts';
import type { Context } from '#server/services/context.ts';
import { noteBooking } from './note-booking.ts';

/** Cancels what is open of vehicles that are being retired, in the transaction that retires them. */
export async function cancelForRetired(
  { db, now, actor }: Context,
  vehicles: readonly { key: number; unit: string }[],
): Promise<NotedChange[]> {
  if (vehicles.length === 0) return [];
  const units = new Map(vehicles.map(({ key, unit }) => [key, unit]));
  const open = await db
    .select({ row: bookings, timeZone: depots.timeZone })
    .from(bookings)
    .innerJoin(depots, eq(depots.id, bookings.depot))
    .where(and(inArray(bookings.vehicle, [...units.keys()]), inArray(bookings.state, ['booked', 'put_off'])))
    .orderBy(asc(bookings.id))
    .for('no key update', { of: bookings });
  const noted: NotedChange[] = [];
  for (const { row, timeZone } of open) {
    const [after] = await db
      .update(bookings)
      .set({
        state: 'cancelled',
        reason: 'vehicle retired',
        version: row.version + 1,
        changedAt: now(),
        changedBy: actor.name,
      })
      .where(eq(bookings.id, row.id))
      .returning();
    if (after === undefined) throw new Error('a locked booking must be there');
    const unit = units.get(row.vehicle) ?? '';
    noted.push(noteBooking('booking_cancelled', unit, { row, timeZone }, { row: after, timeZone }));
  }
  return noted;
}
