import { eq } from 'drizzle-orm';
import { readPlatformExposures } from '#db/queries/read-platform-exposures.ts';
import { fleetEvents, platformContexts } from '#db/schema/analysis.ts';
import type { platforms } from '#db/schema/fleet.ts';
import { learnPlatform as learnFromStretches } from '#server/engine/platform/learn-platform.ts';
import {
  CONTEXT_VERSION,
  type PlatformContext,
  unknownPlatform,
} from '#server/engine/platform/platform-context.ts';
import { weekStartMs } from '#server/engine/platform/week-start-ms.ts';
import type { StretchRow } from '#server/engine/stretches/stretch-row.ts';
import type { Context } from '#server/services/context.ts';
import { toEngineSettings } from '#server/services/stretches/engine-settings.ts';
import { FIRST_HOT_BIN } from '#server/services/vehicles/hot-fluid.ts';
import { learnedWith, type StoredContext } from './learned-with.ts';
import { usualExposure } from './usual-exposure.ts';

/** Key of the context of vehicles without a platform. */
export const NO_PLATFORM = '';

/** What a platform's vehicles have in common, as last learned. */
export async function readContext(ctx: Context, name: string): Promise<PlatformContext> {
  const [row] = await ctx.db
    .select({ context: platformContexts.context })
    .from(platformContexts)
    .where(eq(platformContexts.platform, name));
  const context = row?.context as PlatformContext | undefined;
  return context?.version === CONTEXT_VERSION ? context : unknownPlatform;
}

/** Learns what a platform's vehicles have in common from the stretches of each, and stores it with its fleet events. */
export async function learnPlatform(
  ctx: Context,
  platform: typeof platforms.$inferSelect | null,
  stretches: readonly (readonly StretchRow[])[],
  vehicleDays: number,
): Promise<PlatformContext> {
  const name = platform?.id ?? NO_PLATFORM;
  const context: StoredContext = {
    ...learnFromStretches(stretches, toEngineSettings(platform)),
    learnedWith: learnedWith(platform),
  };
  const usual = usualExposure(await readPlatformExposures(ctx.db, name, FIRST_HOT_BIN));
  const values = { asOf: ctx.now(), vehicles: stretches.length, vehicleDays, context, ...usual };
  await ctx.db.transaction(async (transaction) => {
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
  return context;
}
