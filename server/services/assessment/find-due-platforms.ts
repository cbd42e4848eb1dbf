import { isDeepStrictEqual } from 'node:util';
import { eq, sql } from 'drizzle-orm';
import { readCoverage } from '#db/queries/read-coverage.ts';
import { platformContexts } from '#db/schema/analysis.ts';
import { platforms } from '#db/schema/fleet.ts';
import { CONTEXT_VERSION } from '#server/engine/platform/platform-context.ts';
import type { Context } from '#server/services/context.ts';
import { type LearnedWith, learnedWith } from './learned-with.ts';

/**
 * What was learned of a platform is good for so long while single vehicles report, as long as its limit and what
 * shapes its series stay,
 */
const GOOD_FOR_MS = 24 * 3_600_000;
/** and until its readings span so much more of its vehicles' time: a history that is still loading. */
const MORE = 1.1;

/**
 * Platforms of which it is time to learn again what their vehicles have in common, and how many days of their
 * vehicles' time the readings of every platform span.
 */
export async function findDuePlatforms(
  ctx: Context,
): Promise<{ due: Set<string>; vehicleDays: Map<string, number> }> {
  const coverage = await readCoverage(ctx.db);
  const learned = await ctx.db
    .select({
      platform: platformContexts.platform,
      asOf: platformContexts.asOf,
      vehicleDays: platformContexts.vehicleDays,
      version: sql<number | null>`(${platformContexts.context}->>'version')::integer`,
      learnedWith: sql<LearnedWith | null>`${platformContexts.context}->'learnedWith'`,
      settings: platforms,
    })
    .from(platformContexts)
    .leftJoin(platforms, eq(platforms.id, platformContexts.platform));
  const known = new Map(learned.map((one) => [one.platform, one]));
  const due = coverage.filter(({ platform, vehicleDays }) => {
    const before = known.get(platform);
    if (before === undefined || before.version !== CONTEXT_VERSION) return true;
    // Null where it was learned before this was written down.
    if (before.learnedWith !== null && !isDeepStrictEqual(before.learnedWith, learnedWith(before.settings)))
      return true;
    const age = ctx.now().getTime() - before.asOf.getTime();
    return age >= GOOD_FOR_MS || vehicleDays > MORE * before.vehicleDays + 1;
  });
  return {
    due: new Set(due.map(({ platform }) => platform)),
    vehicleDays: new Map(coverage.map((one) => [one.platform, one.vehicleDays])),
  };
}
