import { eq } from 'drizzle-orm';
import { platforms } from '#db/schema/fleet.ts';
import type { Preview, PreviewRequest } from '#server/contract/settings.ts';
import { rankVehicles } from '#server/engine/ranking/rank-vehicles.ts';
import { SlipdriftError } from '#server/errors.ts';
import { findDuePlatforms } from '#server/services/assessment/find-due-platforms.ts';
import { type RankInput, readRankInputs } from '#server/services/assessment/read-rank-inputs.ts';
import type { Context } from '#server/services/context.ts';
import { readFittedLife } from '#server/services/lives/read-fitted-life.ts';
import { toEngineSettings } from '#server/services/stretches/engine-settings.ts';
import { assessAnew, type PreviewWatch } from './assess-anew.ts';
import { compareLists } from './compare-lists.ts';
import { readThresholds, toGradeLimits } from './read-thresholds.ts';

type PlatformRow = typeof platforms.$inferSelect;

/**
 * What the list would be with other costs, thresholds or limits: ranked from the stored facts, where a limit or a life
 * changes from those of a new assessment. Nothing is stored. Null where `watch` ended the work.
 */
export async function previewChange(
  ctx: Context,
  request: PreviewRequest,
  watch: PreviewWatch,
): Promise<Preview | null> {
  const [stored, thresholds] = await Promise.all([readRankInputs(ctx.db), readThresholds(ctx.db)]);
  const before = request.platform === undefined ? null : await findPlatform(ctx, request.platform.id);
  const changed = before === null ? null : changePlatform(before, request.platform);
  const found =
    before === null || changed === null ? null : await assessWhereNeeded(ctx, before, changed, watch);
  if (watch.stopped()) return null;
  const isOfIt = ({ platform }: RankInput) => platform !== null && platform.id === changed?.id;
  const ranked = rankVehicles(
    stored.map((row) => ({
      vehicle: row.vehicle,
      assessment: found?.get(row.vehicle) ?? row.facts,
      costs: toEngineSettings(isOfIt(row) ? changed : row.platform),
      isCalm: row.calmPacket !== null,
    })),
    toGradeLimits(request.thresholds ?? thresholds),
  );
  return compareLists(stored, ranked);
}

async function findPlatform(ctx: Context, id: string): Promise<PlatformRow> {
  const [row] = await ctx.db.select().from(platforms).where(eq(platforms.id, id));
  if (row !== undefined) return row;
  throw new SlipdriftError('not_found', `No platform '${id}' is known. Nothing was computed.`, {
    errors: [{ field: 'platform.id', message: 'is not known' }],
  });
}

const changePlatform = (before: PlatformRow, asked: PreviewRequest['platform']): PlatformRow => ({
  ...before,
  limitRpm: asked?.limit_rpm ?? before.limitRpm,
  lifeKm: asked?.life_km === undefined ? before.lifeKm : asked.life_km,
  costs: asked?.costs ?? before.costs,
});

async function assessWhereNeeded(
  ctx: Context,
  before: PlatformRow,
  changed: PlatformRow,
  watch: PreviewWatch,
) {
  const limitChanges = before.limitRpm !== changed.limitRpm;
  if (!limitChanges && before.lifeKm === changed.lifeKm) return null;
  const learns = limitChanges || (await findDuePlatforms(ctx)).due.has(before.id);
  // An expected life that a fitted one stands before changes nothing.
  if (!learns && (await readFittedLife(ctx.db, before.id)) !== null) return null;
  return assessAnew(ctx, changed, learns, watch);
}
