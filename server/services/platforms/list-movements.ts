import { asc, desc, sql } from 'drizzle-orm';
import { countPlatformVehicles } from '#db/queries/count-platform-vehicles.ts';
import { fleetEvents, platformContexts } from '#db/schema/analysis.ts';
import { platforms } from '#db/schema/fleet.ts';
import type { PlatformSummary } from '#server/contract/movement.ts';
import type { CommonWeek } from '#server/engine/platform/estimate-common-movement.ts';
import { weekStartMs } from '#server/engine/platform/week-start-ms.ts';
import { REFERENCE_BAND } from '#server/engine/stretches/band-of.ts';
import { NO_PLATFORM } from '#server/services/assessment/learn-platform.ts';
import type { Context } from '#server/services/context.ts';
import { toEngineSettings } from '#server/services/stretches/engine-settings.ts';
import { tellState } from './tell-state.ts';
import { toFleetEvent } from './to-fleet-event.ts';

/** Every platform in short, by name, and at the end the vehicles without one where there are any. */
export async function listMovements(ctx: Context): Promise<PlatformSummary[]> {
  const [known, contexts, steps, counts] = await Promise.all([
    ctx.db.select().from(platforms).orderBy(asc(platforms.name), asc(platforms.id)),
    ctx.db
      .select({
        platform: platformContexts.platform,
        asOf: platformContexts.asOf,
        vehicles: platformContexts.vehicles,
        movement: sql<CommonWeek[] | null>`jsonb_path_query_first(${platformContexts.context},
          '$.bands[*] ? (@.band == $band).movement', jsonb_build_object('band', ${REFERENCE_BAND}::integer))`,
      })
      .from(platformContexts),
    ctx.db.select().from(fleetEvents).orderBy(desc(fleetEvents.at)),
    countPlatformVehicles(ctx.db),
  ]);
  const learned = new Map(contexts.map((one) => [one.platform, one]));
  const summarise = (platform: (typeof known)[number] | null): PlatformSummary => {
    const name = platform?.id ?? NO_PLATFORM;
    const own = learned.get(name) ?? null;
    return {
      id: platform?.id ?? null,
      name: platform?.name ?? 'No platform',
      limit_rpm: toEngineSettings(platform).limitRpm,
      vehicles: counts.get(name) ?? 0,
      state: tellState(own === null ? null : { vehicles: own.vehicles, weeks: own.movement?.length ?? 0 }),
      as_of: own?.asOf.toISOString() ?? null,
      events: steps.filter((step) => step.platform === name).map(toFleetEvent),
      weeks: (own?.movement ?? []).map(({ week, movementRpm }) => [
        new Date(weekStartMs(week)).toISOString().slice(0, 10),
        Math.round(movementRpm * 100) / 100,
      ]),
    };
  };
  const hasUnassigned = (counts.get(NO_PLATFORM) ?? 0) > 0;
  return [...known, ...(hasUnassigned ? [null] : [])].map(summarise);
}
