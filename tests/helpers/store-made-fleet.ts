import { storeAssessments } from '#db/queries/store-assessments.ts';
import { platforms, vehicles } from '#db/schema/fleet.ts';
import { readingSpans } from '#db/schema/intake.ts';
import { findDuePlatforms } from '#server/services/assessment/find-due-platforms.ts';
import { learnPlatform, NO_PLATFORM } from '#server/services/assessment/learn-platform.ts';
import { rankFleet } from '#server/services/assessment/rank-fleet.ts';
import type { StoredBrief, StoredFacts } from '#server/services/assessment/stored-assessment.ts';
import type { Context } from '#server/services/context.ts';
import { seededRandom } from './seeded-random.ts';
import { storeMadePlaces } from './store-made-places.ts';
import { storeMadePlans } from './store-made-plans.ts';

const AT_ONCE = 500;
/** Kilometres at which the engine keeps chances. */
const grid = [
  250, 500, 1000, 1500, 2000, 3000, 4000, 5000, 7500, 10_000, 15_000, 20_000, 30_000, 50_000, 100_000,
];

/**
 * A fleet with its assessments as they are stored, without the readings behind them: for what the list does with many
 * vehicles. In a hundred there are about two on hold, four to book, seven to watch; twins of everything that decides a
 * rank, codes, platforms of different costs, vehicles without platform or depot; open bookings of every kind for some,
 * and standings of a week ago.
 */
export async function storeMadeFleet(ctx: Context, count: number, seed = 17): Promise<void> {
  const { uniform, normal } = seededRandom(seed);
  const between = (low: number, high: number) => low + (high - low) * uniform();
  const now = ctx.now();
  await storeMadePlaces(ctx);
  const made = Array.from({ length: count }, (_, i) => {
    const kind = uniform();
    const lacks = uniform();
    return {
      unit: `F-${String(i + 1).padStart(5, '0')}`,
      depot: lacks < 0.03 ? null : `depot-${Math.floor(uniform() * 10)}`,
      platform: lacks > 0.02 && lacks < 0.05 ? null : `platform-${Math.floor(uniform() * 3)}`,
      odometerKm: between(20_000, 500_000),
      kmPerDay: between(40, 320),
      facts: makeFacts(kind, between, normal),
    };
  });
  // Every ninth has the chances of the one before it, every other of these its slip too.
  for (const [i, one] of made.entries()) {
    const before = made[i - 1];
    if (i % 9 !== 8 || before === undefined) continue;
    const levelRpm = (before.facts.levelRpm ?? 0) + (i % 2 === 0 ? 0 : 3);
    Object.assign(one, { platform: before.platform, facts: { ...before.facts, levelRpm } });
  }
  const keys: number[] = [];
  for (let from = 0; from < count; from += AT_ONCE) {
    const part = made.slice(from, from + AT_ONCE);
    const rows = await ctx.db
      .insert(vehicles)
      .values(part.map(({ unit, depot, platform }) => ({ unit, depot, platform, registered: true })))
      .returning({ key: vehicles.key });
    keys.push(...rows.map(({ key }) => key));
    await ctx.db.insert(readingSpans).values(
      part.map(({ odometerKm }, i) => ({
        vehicle: keys[from + i] ?? 0,
        firstAt: new Date(now.getTime() - 300 * 86_400_000),
        lastAt: new Date(now.getTime() - between(0.1, 3) * 86_400_000),
        odometerKm,
      })),
    );
    await storeAssessments(
      ctx.db,
      now,
      part.map((one, i) => toAssessment(keys[from + i] ?? 0, one, normal)),
    );
  }
  await learnNothing(ctx);
  await rankFleet(ctx);
  await storeMadePlans(ctx, uniform);
}

type Made = { odometerKm: number; kmPerDay: number; facts: StoredFacts };

function makeFacts(
  kind: number,
  between: (low: number, high: number) => number,
  normal: () => number,
): StoredFacts {
  const baselineRpm = between(6, 16);
  const drifting = kind < 0.13;
  // Median kilometres to the limit of 150 rpm, and how sure that is.
  const medianKm =
    kind < 0.02 ? between(50, 900) : kind < 0.06 ? between(1_200, 6_000) : between(9_000, 40_000);
  const sudden = between(0.001, 0.006);
  const chanceOf = (km: number) =>
    1 - (1 - sudden * Math.min(1, km / 5_000)) * (drifting ? 1 - 1 / (1 + (medianKm / km) ** 3) : 1);
  return {
    p: drifting ? 1e-6 : between(0.1, 1),
    drifting: drifting ? 0.95 : 0.05,
    stepping: 0,
    chancePastLimit: drifting && medianKm < 300 ? 0.7 : 0,
    chanceSoon: chanceOf(1_000),
    chanceWithinHorizon: chanceOf(5_000),
    suddenChance: sudden,
    levelRpm: drifting ? Math.max(40, 150 - medianKm / 300) : baselineRpm + normal(),
    baselineRpm,
    missing: [],
    codes: kind > 0.985 ? 1 : 0,
    chances: grid.map((km) => [km, chanceOf(km)]),
  };
}

function toAssessment(vehicle: number, { odometerKm, kmPerDay, facts }: Made, normal: () => number) {
  const level = facts.levelRpm ?? 12;
  const baseline = facts.baselineRpm ?? 12;
  const drifts = facts.drifting > 0.5;
  const km = (share: number) => facts.chances.find(([, chance]) => chance >= share)?.[0] ?? null;
  const brief: StoredBrief = {
    reasons: drifts
      ? [{ kind: 'risen', fromRpm: baseline, toRpm: level, overKm: 9_000, sinceKm: odometerKm - 9_000 }]
      : [{ kind: 'no_drift', slipRpm: level, overKm: 24_000 }],
    missing: [],
    spark: Array.from({ length: 20 }, (_, i) => [odometerKm - 9_500 + 500 * i, level + normal()]),
  };
  return {
    vehicle,
    pattern: drifts ? 'drift_all_commands' : 'none',
    life: 1,
    referenceSlipRpm: level,
    baselineRpm: baseline,
    limitRpm: 150,
    onsetKm: drifts ? odometerKm - 9_000 : null,
    driftRpmPerKm: drifts ? (level - baseline) / 9_000 : null,
    driftLow: drifts ? (level - baseline) / 11_000 : null,
    driftHigh: drifts ? (level - baseline) / 8_000 : null,
    p: facts.p,
    kmP10: drifts ? km(0.1) : null,
    kmP50: drifts ? km(0.5) : null,
    kmP90: drifts ? km(0.9) : null,
    kmPerDay,
    facts,
    brief,
    detail: {},
  };
}

/** Else the next start would learn the platforms from stretches that are not there, and find all vehicles unknown. */
async function learnNothing(ctx: Context): Promise<void> {
  const { vehicleDays } = await findDuePlatforms(ctx);
  const known = await ctx.db.select().from(platforms);
  for (const platform of [...known, null])
    await learnPlatform(ctx, platform, [], vehicleDays.get(platform?.id ?? NO_PLATFORM) ?? 0);
}
