import { isDeepStrictEqual } from 'node:util';
import { eq } from 'drizzle-orm';
import type { Database } from '#db/client.ts';
import { fleetSettings, platforms } from '#db/schema/fleet.ts';
import type { Costs } from '#server/contract/fleet.ts';
import type { Thresholds } from '#server/contract/settings.ts';
import { readThresholds } from '#server/services/settings/read-thresholds.ts';

/** What ranks and grades follow from beside the assessments. */
export interface RankSettings {
  thresholds: Thresholds;
  /** by platform */
  costs: Record<string, Costs>;
}

export async function readRankSettings(db: Database): Promise<RankSettings> {
  const rows = await db.select({ id: platforms.id, costs: platforms.costs }).from(platforms);
  return {
    thresholds: await readThresholds(db),
    costs: Object.fromEntries(rows.map(({ id, costs }) => [id, costs])),
  };
}

/** Whether they are others than those that the fleet was last ranked by. */
export async function isRankDue(db: Database): Promise<boolean> {
  const [row] = await db
    .select({ value: fleetSettings.value })
    .from(fleetSettings)
    .where(eq(fleetSettings.name, 'ranked_by'));
  return !isDeepStrictEqual(row?.value, await readRankSettings(db));
}

export async function noteRankedBy(db: Database, settings: RankSettings, at: Date): Promise<void> {
  const set = { name: 'ranked_by' as const, value: settings, changedAt: at };
  await db.insert(fleetSettings).values(set).onConflictDoUpdate({ target: fleetSettings.name, set });
}
