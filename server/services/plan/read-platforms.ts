import type { Database } from '#db/client.ts';
import { platforms } from '#db/schema/fleet.ts';
import type { AvoidableCosts } from '#server/engine/ranking/expect-avoided-cost.ts';
import { hoursFor } from '#server/services/bookings/book-vehicle.ts';
import { toEngineSettings } from '#server/services/stretches/engine-settings.ts';

/** What a plan needs to know of a platform. */
export interface PlannedPlatform {
  costs: AvoidableCosts;
  inspectionHours: number;
}

/** Platforms by their id; what is assumed for a vehicle without one. */
export async function readPlatforms(db: Database): Promise<(platform: string | null) => PlannedPlatform> {
  const rows = await db.select().from(platforms);
  const known = new Map(
    rows.map((row) => [row.id, { costs: toEngineSettings(row), inspectionHours: hoursFor(row) }]),
  );
  const assumed = { costs: toEngineSettings(null), inspectionHours: hoursFor({ inspectionHours: null }) };
  return (platform) => known.get(platform ?? '') ?? assumed;
}
