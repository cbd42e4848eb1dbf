import type { Database } from '#db/client.ts';
import { platforms } from '#db/schema/fleet.ts';
import type { AvoidableCosts } from '#server/engine/ranking/expect-avoided-cost.ts';
import { toEngineSettings } from '#server/services/stretches/engine-settings.ts';

export type CostsOf = (platform: string | null) => AvoidableCosts;

/** What road failures, repairs and inspections cost, by platform; what is assumed for a vehicle without one. */
export async function readCosts(db: Database): Promise<CostsOf> {
  const rows = await db.select().from(platforms);
  const known = new Map(rows.map((platform) => [platform.id, toEngineSettings(platform)]));
  const assumed = toEngineSettings(null);
  return (platform) => known.get(platform ?? '') ?? assumed;
}
