import type { Database } from '#db/client.ts';
import type { AvoidableCosts } from '#server/engine/ranking/expect-avoided-cost.ts';
import { hoursFor } from '#server/services/bookings/book-vehicle.ts';
import { byPlatform } from '#server/services/platforms/by-platform.ts';
import { toEngineSettings } from '#server/services/stretches/engine-settings.ts';

/** What a plan needs to know of a platform. */
export interface PlannedPlatform {
  costs: AvoidableCosts;
  inspectionHours: number;
}

export const readPlatforms = (db: Database): Promise<(platform: string | null) => PlannedPlatform> =>
  byPlatform(db, (platform) => ({
    costs: toEngineSettings(platform),
    inspectionHours: hoursFor({ inspectionHours: platform?.inspectionHours ?? null }),
  }));
