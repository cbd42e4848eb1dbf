import { eq, inArray, isNull, sql } from 'drizzle-orm';
import { readStretches } from '#db/queries/read-stretches.ts';
import { fleetEvents, platformContexts } from '#db/schema/analysis.ts';
import { platforms, vehicles } from '#db/schema/fleet.ts';
import { learnPlatform } from '#server/engine/platform/learn-platform.ts';
import { type PlatformContext, unknownPlatform } from '#server/engine/platform/platform-context.ts';
import { weekStartMs } from '#server/engine/platform/week-start-ms.ts';
import type { StretchRow } from '#server/engine/stretches/stretch-row.ts';
import type { Context } from '#server/services/context.ts';
import { toEngineSettings } from '#server/services/stretches/engine-settings.ts';
import { groupStretches } from './group-stretches.ts';

/** A learned context is good for so long while single vehicles report. */
const GOOD_FOR_MS = 24 * 3_600_000;

/** Key of the context of vehicles without a platform. */
export const NO_PLATFORM = '';

/**
 * Learns again what the vehicles of these platforms have in common, where it is older than a day or `always`.
 * Answers the platforms learned, whose vehicles all want a new assessment.
 */
export async function learnPlatforms(
  ctx: Context,
  names: readonly string[],
  always: boolean,
): Promise<string[]> {
  const learned: string[] = [];
  for (const name of names) {
    const [known] = await ctx.db
      .select({ asOf: platformContexts.asOf })
      .from(platformContexts)
      .where(eq(platformContexts.platform, name));
    const age = known === undefined ? Number.POSITIVE_INFINITY : ctx.now().getTime() - known.asOf.getTime();
    if (!always && age < GOOD_FOR_MS) continue;
    await learnOne(ctx, name);
    learned.push(name);
  }
  return learned;
}

async function learnOne(ctx: Context, name: string): Promise<void> {
  const [row] = await ctx.db.select().from(platforms).where(eq(platforms.id, name));
  const keys = await ctx.db
    .select({ key: vehicles.key })
    .from(vehicles)
    .where(name === NO_PLATFORM ? isNull(vehicles.platform) : eq(vehicles.platform, name));
  const stretches = groupStretches(
    await readStretches(
      ctx.db,
      keys.map(({ key }) => key),
    ),
  );
  const groups: StretchRow[][] = [...stretches.values()];
  const context = learnPlatform(groups, toEngineSettings(row ?? null));
  const asOf = ctx.now();
  await ctx.db.transaction(async (transaction) => {
    const values = { asOf, vehicles: groups.length, context };
    await transaction
      .insert(platformContexts)
      .values({ platform: name, ...values })
      .onConflictDoUpdate({ target: platformContexts.platform, set: values });
    await transaction.delete(fleetEvents).where(eq(fleetEvents.platform, name));
    if (context.events.length === 0) return;
    await transaction.insert(fleetEvents).values(
      context.events.map((event) => ({
        platform: name,
        at: new Date(weekStartMs(event.week)),
        sizeRpm: event.sizeRpm,
        vehicles: event.vehicles,
      })),
    );
  });
}

/** Stored contexts by platform. */
export async function readContexts(
  ctx: Context,
  names: readonly string[],
): Promise<Map<string, PlatformContext>> {
  if (names.length === 0) return new Map();
  const rows = await ctx.db
    .select({
      platform: platformContexts.platform,
      context: sql<PlatformContext>`${platformContexts.context}`,
    })
    .from(platformContexts)
    .where(inArray(platformContexts.platform, [...names]));
  const found = new Map(rows.map((row) => [row.platform, row.context]));
  return new Map(names.map((name) => [name, found.get(name) ?? unknownPlatform]));
}
