import { asc, eq } from 'drizzle-orm';
import type { Database } from '#db/client.ts';
import { platforms, vehicles } from '#db/schema/fleet.ts';
import { touchedVehicles } from '#db/schema/intake.ts';

/** Vehicles with readings newer than their stretches, with their platforms. */
export function findTouchedVehicles(db: Database) {
  return db
    .select({ touched: touchedVehicles, vehicle: vehicles, platform: platforms })
    .from(touchedVehicles)
    .innerJoin(vehicles, eq(vehicles.key, touchedVehicles.vehicle))
    .leftJoin(platforms, eq(platforms.id, vehicles.platform))
    .orderBy(asc(touchedVehicles.vehicle));
}

export type TouchedVehicle = Awaited<ReturnType<typeof findTouchedVehicles>>[number];
