import { and, eq, inArray, isNull, or } from 'drizzle-orm';
import { findTouchedVehicles, type TouchedVehicle } from '#db/queries/find-touched-vehicles.ts';
import { platforms, vehicles } from '#db/schema/fleet.ts';
import { touchedVehicles } from '#db/schema/intake.ts';
import type { Context } from '#server/services/context.ts';
import { refreshStretches } from '#server/services/stretches/refresh-stretches.ts';
import { assessVehicles } from './assess-vehicles.ts';
import { learnPlatforms, NO_PLATFORM, readContexts } from './learn-platforms.ts';
import { rankFleet } from './rank-fleet.ts';

/** Vehicles that are assessed in one go. */
const BATCH = 250;

export interface UpToDateOptions {
  /** learn again what the platforms of the touched vehicles have in common, however lately that was done */
  learn: boolean;
  /** asked between vehicles; true ends the work early, with nothing lost */
  stopped?: () => boolean;
}

/**
 * Brings stretches, assessments and ranks up to date with the stored readings. Touches only vehicles with new data,
 * and the other vehicles of a platform whose common movement is due to be learned again. Answers how many vehicles
 * were assessed. A crash or a stop leaves the work noted, and it is done again.
 */
export async function bringUpToDate(
  ctx: Context,
  { learn, stopped = () => false }: UpToDateOptions,
): Promise<number> {
  const touched = await findTouchedVehicles(ctx.db);
  if (touched.length === 0) return 0;
  for (const one of touched) {
    if (stopped()) return 0;
    await refreshStretches(ctx, one);
  }
  const names = [...new Set(touched.map(({ platform }) => platform?.id ?? NO_PLATFORM))];
  const learned = await learnPlatforms(ctx, names, learn);
  const contexts = await readContexts(ctx, names);
  const own = touched.map(({ vehicle, platform }) => ({ vehicle: vehicle.key, platform }));
  const others = await vehiclesOf(ctx, learned);
  const wanted = [...new Map([...own, ...others].map((one) => [one.vehicle, one])).values()];
  for (let from = 0; from < wanted.length; from += BATCH) {
    if (stopped()) return 0;
    await assessVehicles(ctx, wanted.slice(from, from + BATCH), contexts);
  }
  await rankFleet(ctx);
  await forget(ctx, touched);
  return wanted.length;
}

async function vehiclesOf(ctx: Context, names: readonly string[]) {
  if (names.length === 0) return [];
  const named = inArray(vehicles.platform, [...names]);
  const rows = await ctx.db
    .select({ vehicle: vehicles.key, platform: platforms })
    .from(vehicles)
    .leftJoin(platforms, eq(platforms.id, vehicles.platform))
    .where(names.includes(NO_PLATFORM) ? or(named, isNull(vehicles.platform)) : named);
  return rows;
}

/** A vehicle that was touched again meanwhile keeps its note. */
async function forget(ctx: Context, batch: readonly TouchedVehicle[]): Promise<void> {
  await ctx.db.transaction(async (transaction) => {
    for (const { touched } of batch)
      await transaction
        .delete(touchedVehicles)
        .where(
          and(eq(touchedVehicles.vehicle, touched.vehicle), eq(touchedVehicles.version, touched.version)),
        );
  });
}
