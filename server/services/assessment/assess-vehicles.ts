import { readAssessedVehicles } from '#db/queries/read-assessed-vehicles.ts';
import { type NewAssessment, storeAssessments } from '#db/queries/store-assessments.ts';
import type { platforms } from '#db/schema/fleet.ts';
import { assessVehicle } from '#server/engine/assessment/assess-vehicle.ts';
import type { VehicleAssessment } from '#server/engine/assessment/assessment-model.ts';
import type { LifeHazard } from '#server/engine/life/platform-life.ts';
import type { PlatformContext } from '#server/engine/platform/platform-context.ts';
import type { StretchRow } from '#server/engine/stretches/stretch-row.ts';
import { readCodeBook } from '#server/services/codes/code-book.ts';
import type { Context } from '#server/services/context.ts';
import { toEngineSettings } from '#server/services/stretches/engine-settings.ts';
import { toAssessmentInput } from './assessment-input.ts';
import { DEFAULT_HORIZON_KM } from './horizon.ts';
import type { StoredBrief, StoredDetail, StoredFacts } from './stored-assessment.ts';

type PlatformRow = typeof platforms.$inferSelect;

/** Kilometres that the spark line of the list shows. */
const SPARK_KM = 10_000;

/** Assesses vehicles of one platform from their stretches and stores what was found; rank and grade come afterwards. */
export async function assessVehicles(...[ctx, ...how]: Parameters<typeof findAssessments>): Promise<void> {
  const { at, rows } = await findAssessments(ctx, ...how);
  await ctx.db.transaction((transaction) => storeAssessments(transaction, at, rows));
}

/** The same without storing it. `fitted` is the life of the platform; null for the expected one. */
export async function findAssessments(
  ctx: Context,
  keys: readonly number[],
  platform: PlatformRow | null,
  context: PlatformContext,
  stretches: { of(vehicle: number): readonly StretchRow[] },
  fitted: LifeHazard | null,
): Promise<{ at: Date; rows: NewAssessment[] }> {
  const settings = toEngineSettings(platform, fitted);
  const [known, book] = await Promise.all([readAssessedVehicles(ctx.db, keys), readCodeBook(ctx.db)]);
  const now = ctx.now();
  const rows = known.flatMap((facts): NewAssessment[] => {
    if (facts.lastReadingAt === null) return [];
    const { vehicle } = facts;
    const assessment = assessVehicle(
      toAssessmentInput(facts, stretches.of(vehicle), book, now.getTime(), platform !== null),
      settings,
      context,
      DEFAULT_HORIZON_KM,
    );
    return [toRow(vehicle, settings.limitRpm, assessment)];
  });
  return { at: now, rows };
}

function toRow(vehicle: number, limitRpm: number, found: VehicleAssessment): NewAssessment {
  const points = found.series[0]?.points.filter((point) => point.life === found.life) ?? [];
  const lastKm = points.at(-1)?.km ?? 0;
  const facts: StoredFacts = {
    p: found.p,
    drifting: found.drifting,
    stepping: found.stepping,
    chancePastLimit: found.chancePastLimit,
    chanceSoon: found.chanceSoon,
    chanceWithinHorizon: found.chanceWithinHorizon,
    suddenChance: found.suddenChance,
    levelRpm: found.levelRpm,
    missing: found.missing,
    baselineRpm: found.baseline?.estimate ?? null,
    codes: found.codes.length,
    chances: found.chances,
  };
  const brief: StoredBrief = {
    reasons: found.reasons,
    missing: found.missing,
    spark: points
      .filter((point) => point.km > lastKm - SPARK_KM)
      .map((point) => [Math.round(point.km), Math.round(point.slipRpm * 10) / 10]),
  };
  const detail: StoredDetail = {
    fromKm: found.fromKm,
    baseline: found.baseline,
    onset: found.onset,
    accelerating: found.accelerating,
    fitLine: found.fitLine,
    forecast: found.forecast,
    bandRises: found.bandRises,
  };
  return {
    vehicle,
    pattern: found.pattern,
    life: found.life,
    referenceSlipRpm: found.levelRpm,
    baselineRpm: found.baseline?.estimate ?? null,
    limitRpm,
    onsetKm: found.onset?.estimate ?? null,
    driftRpmPerKm: found.driftRpmPerKm?.estimate ?? null,
    driftLow: found.driftRpmPerKm?.low ?? null,
    driftHigh: found.driftRpmPerKm?.high ?? null,
    p: found.p,
    kmP10: found.passage?.p10 ?? null,
    kmP50: found.passage?.p50 ?? null,
    kmP90: found.passage?.p90 ?? null,
    kmPerDay: found.kmPerDay,
    facts,
    brief,
    detail,
  };
}
