import { and, eq } from 'drizzle-orm';
import type { Database } from '#db/client.ts';
import { depots, platforms, vehicles } from '#db/schema/fleet.ts';
import { bookings } from '#db/schema/planning.ts';
import { openBooking } from './open-booking.ts';
import { type Sight, seenBy } from './seen-vehicles.ts';

/**
 * A vehicle that somebody is about to book, held as it is until the end of the transaction, so that nobody retires it
 * meanwhile; null where they see no such vehicle. Vehicles are locked before bookings everywhere.
 */
export async function holdVehicle(transaction: Database, unit: string, sight: Sight) {
  const [held] = await transaction
    .select({
      key: vehicles.key,
      unit: vehicles.unit,
      depot: vehicles.depot,
      retired: vehicles.retired,
      unavailable: vehicles.unavailable,
      platform: vehicles.platform,
    })
    .from(vehicles)
    .where(and(eq(vehicles.unit, unit), seenBy(sight)))
    .for('share');
  if (held === undefined) return null;
  const [platform] =
    held.platform === null
      ? []
      : await transaction
          .select({ inspectionHours: platforms.inspectionHours })
          .from(platforms)
          .where(eq(platforms.id, held.platform));
  return { ...held, inspectionHours: platform?.inspectionHours ?? null };
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
