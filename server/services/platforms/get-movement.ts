import { asc, eq } from 'drizzle-orm';
import { countPlatformVehicles } from '#db/queries/count-platform-vehicles.ts';
import { fleetEvents, platformContexts } from '#db/schema/analysis.ts';
import { platforms } from '#db/schema/fleet.ts';
import { NO_PLATFORM_ID, type PlatformMovement } from '#server/contract/movement.ts';
import { LEAST_VEHICLES } from '#server/engine/platform/estimate-common-movement.ts';
import type { BandContext, PlatformContext } from '#server/engine/platform/platform-context.ts';
import { WEEK_MS } from '#server/engine/platform/week-of.ts';
import { weekStartMs } from '#server/engine/platform/week-start-ms.ts';
import { REFERENCE_BAND } from '#server/engine/stretches/band-of.ts';
import { SlipdriftError } from '#server/errors.ts';
import { NO_PLATFORM } from '#server/services/assessment/learn-platform.ts';
import type { Context } from '#server/services/context.ts';
import { toEngineSettings } from '#server/services/stretches/engine-settings.ts';
import { isCarried, measureScatter } from './measure-scatter.ts';
import { type MeasuredSeason, measureSeason } from './measure-season.ts';
import { nameMonth, sayMeaning, saySeason } from './say-movement.ts';
import { tellState } from './tell-state.ts';
import { toFleetEvent } from './to-fleet-event.ts';

/** What all vehicles of a platform did together, as last learned; `-` for the vehicles without one. */
export async function getMovement(ctx: Context, id: string): Promise<PlatformMovement> {
  const name = id === NO_PLATFORM_ID ? NO_PLATFORM : id;
  const [[platform = null], [stored], steps, counts] = await Promise.all([
    ctx.db.select().from(platforms).where(eq(platforms.id, name)),
    ctx.db.select().from(platformContexts).where(eq(platformContexts.platform, name)),
    ctx.db.select().from(fleetEvents).where(eq(fleetEvents.platform, name)).orderBy(asc(fleetEvents.at)),
    countPlatformVehicles(ctx.db),
  ]);
  if (platform === null && name !== NO_PLATFORM)
    throw new SlipdriftError('not_found', `No platform '${id}' is known. GET /api/platforms has the list.`);
  const settings = toEngineSettings(platform);
  const context = stored?.context as PlatformContext | undefined;
  const band = context?.bands.find((one) => one.band === REFERENCE_BAND);
  const movement = band?.movement ?? [];
  const errors = measureScatter(movement);
  const moved = movement.map(({ week, movementRpm }) => ({ ms: weekStartMs(week), rpm: movementRpm }));
  const season = measureSeason(
    moved.map(({ ms, rpm }) => ({ ms: ms + WEEK_MS / 2, rpm })),
    steps.map(({ at, sizeRpm }) => ({ ms: at.getTime(), rpm: sizeRpm })),
  );
  const learnedFrom = stored?.vehicles ?? 0;
  const state = tellState(stored === undefined ? null : { vehicles: learnedFrom, weeks: movement.length });
  return {
    id: platform?.id ?? null,
    name: platform?.name ?? 'No platform',
    limit_rpm: settings.limitRpm,
    vehicles: counts.get(name) ?? 0,
    state,
    as_of: stored?.asOf.toISOString() ?? null,
    learned_from: learnedFrom,
    needs_vehicles: LEAST_VEHICLES,
    sentence: sayMeaning({ state, hasPlatform: platform !== null, learnedFrom, events: steps, weeks: moved }),
    weeks: movement.map(({ week, movementRpm, vehicles }, i) => ({
      week: new Date(weekStartMs(week)).toISOString().slice(0, 10),
      movement_rpm: hundredth(movementRpm),
      error_rpm: toHundredth(errors[i] ?? null),
      vehicles,
      carried: isCarried(movement, i),
    })),
    events: steps.map(toFleetEvent),
    season: toSeason(season),
    usual:
      band === undefined || learnedFrom === 0
        ? null
        : { baseline_rpm: hundredth(band.baselineRpm), spread_rpm: hundredth(band.baselineSd) },
    effects: band === undefined || learnedFrom === 0 ? null : toEffects(band),
    reference: {
      duty_pct: settings.reference.dutyPct,
      load_pct: settings.reference.loadPct,
      fluid_c: settings.reference.fluidC,
    },
  };
}

function toSeason(season: MeasuredSeason): PlatformMovement['season'] {
  const isMeasured = season.state === 'measured';
  return {
    state: season.state,
    amplitude_rpm: isMeasured ? hundredth(season.amplitudeRpm) : null,
    error_rpm: season.state === 'too_short' ? null : hundredth(season.errorRpm),
    highest_in: isMeasured ? nameMonth(season.highestMonth) : null,
    sentence: saySeason(season),
  };
}

/** Worn: of a clutch whose slip has risen by 100 rpm, which is the unit of the engine's rise. */
function toEffects({ effects: { healthy, worn }, usual }: BandContext): PlatformMovement['effects'] {
  const name = ([load, fluid, duty]: readonly [number, number, number]) => ({
    load_rpm_per_pct: usual?.loadPct === null ? null : thousandth(load),
    fluid_rpm_per_c: usual?.fluidC === null ? null : thousandth(fluid),
    duty_rpm_per_pct: thousandth(duty),
  });
  const [load, fluid, duty] = healthy;
  return { healthy: name(healthy), worn: name([load + worn[0], fluid + worn[1], duty + worn[2]]) };
}

const hundredth = (value: number) => Math.round(value * 100) / 100;
const toHundredth = (value: number | null) => (value === null ? null : hundredth(value));
const thousandth = (value: number) => Math.round(value * 1000) / 1000;
