import type { Database } from '#db/client.ts';
import type { AvoidableCosts } from '#server/engine/ranking/expect-avoided-cost.ts';
import { byPlatform } from '#server/services/platforms/by-platform.ts';
import { toEngineSettings } from '#server/services/stretches/engine-settings.ts';

export type CostsOf = (platform: string | null) => AvoidableCosts;

/** What road failures, repairs and inspections cost, by platform. */
export const readCosts = (db: Database): Promise<CostsOf> => byPlatform(db, toEngineSettings);
