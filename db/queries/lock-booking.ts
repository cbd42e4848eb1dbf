import { and, eq } from 'drizzle-orm';
import { alias } from 'drizzle-orm/pg-core';
import type { Database } from '#db/client.ts';
import { assessments } from '#db/schema/analysis.ts';
import { depots, platforms, vehicles } from '#db/schema/fleet.ts';
import { bookings } from '#db/schema/planning.ts';
import { openBooking } from './open-booking.ts';
import { type Sight, seenBy } from './seen-vehicles.ts';

const openDepots = alias(depots, 'open_depots');

interface Wanted {
  unit: string;
  sight: Sight;
  /** where it is to be inspected; null for the depot that it belongs to */
  depot: string | null;
}

/**
 * A vehicle that somebody is about to book, with all that decides about it: where it is to go, what its platform takes,
 * what it has open. Until the end of the transaction nobody retires it, or changes the calendar and time zone of that
 * depot. Everywhere vehicles are locked before depots, and depots before bookings. Null where they see no such vehicle.
 */
export async function holdVehicle(transaction: Database, { unit, sight, depot }: Wanted) {
  const [held] = await transaction
    .select({
      vehicle: vehicles,
      inspectionHours: platforms.inspectionHours,
      open: bookings,
      openAt: { depotName: openDepots.name, timeZone: openDepots.timeZone },
    })
    .from(vehicles)
    .leftJoin(platforms, eq(platforms.id, vehicles.platform))
    .leftJoin(bookings, openBooking)
    .leftJoin(openDepots, eq(openDepots.id, bookings.depot))
    .where(and(eq(vehicles.unit, unit), seenBy(sight)))
    .for('share', { of: vehicles });
  if (held === undefined) return null;
  // By itself: rows of a table that is split by vehicle cannot be joined to one that is locked.
  const [assessed] = await transaction
    .select({ grade: assessments.grade })
    .from(assessments)
    .where(eq(assessments.vehicle, held.vehicle.key));
  const id = depot ?? held.vehicle.depot;
  return {
    ...held,
    grade: assessed?.grade ?? null,
    depot: id === null ? null : await holdDepot(transaction, id),
  };
}

/** In a statement of its own: one that had waited for the vehicle would read the depot as it was before. */
async function holdDepot(transaction: Database, id: string) {
  const [depot] = await transaction.select().from(depots).where(eq(depots.id, id)).for('share');
  return depot ?? null;
}

export type HeldVehicle = NonNullable<Awaited<ReturnType<typeof holdVehicle>>>;

/** The open booking of a vehicle, with the depot where it is. */
export async function findOpenBooking(db: Database, vehicle: number) {
  const [found] = await db
    .select({ row: bookings, depotName: depots.name, timeZone: depots.timeZone })
    .from(vehicles)
    .innerJoin(bookings, openBooking)
    .innerJoin(depots, eq(depots.id, bookings.depot))
    .where(eq(vehicles.key, vehicle));
  return found ?? null;
}

/** Nobody else changes this booking until the end of the transaction. */
export async function lockBooking(transaction: Database, id: number) {
  const [row] = await transaction.select().from(bookings).where(eq(bookings.id, id)).for('no key update');
  return row ?? null;
}

export async function findDepot(db: Database, id: string) {
  const [row] = await db.select().from(depots).where(eq(depots.id, id));
  return row ?? null;
}
