import { asc, eq } from 'drizzle-orm';
import {
  type AtlasStretch,
  countAtlasVehicles,
  readAtlasCells,
  readAtlasReach,
  readAtlasStretches,
} from '#db/queries/read-atlas.ts';
import { readVehicleRecord } from '#db/queries/read-vehicle-record.ts';
import { fleetEvents } from '#db/schema/analysis.ts';
import { platforms } from '#db/schema/fleet.ts';
import type { Atlas, AtlasPlane } from '#server/contract/atlas.ts';
import { NO_PLATFORM_ID } from '#server/contract/movement.ts';
import { REFERENCE_BAND } from '#server/engine/stretches/band-of.ts';
import { SlipdriftError } from '#server/errors.ts';
import { NO_PLATFORM } from '#server/services/assessment/learn-platform.ts';
import type { Context } from '#server/services/context.ts';
import { toFleetEvent } from '#server/services/platforms/to-fleet-event.ts';
import { sightOf } from '#server/services/sight.ts';
import { toEngineSettings } from '#server/services/stretches/engine-settings.ts';
import { COMMAND_STEP_PCT, edgesOfSlip, FINE_SLIP_RPM, FLUID_STEP_C } from './atlas-steps.ts';
import { findStanding } from './find-standing.ts';
import { makePlane } from './make-plane.ts';

const DAY_MS = 86_400_000;

interface Question {
  platform: string;
  days: number;
  vehicle: string | undefined;
}

/** Slip of all vehicles of a platform against command and temperature, from their stretches; `-` for those without one. */
export async function getAtlas(ctx: Context, { platform: id, days, vehicle }: Question): Promise<Atlas> {
  const name = id === NO_PLATFORM_ID ? NO_PLATFORM : id;
  const [platform = null] = await ctx.db.select().from(platforms).where(eq(platforms.id, name));
  if (platform === null && name !== NO_PLATFORM)
    throw new SlipdriftError('not_found', `No platform '${id}' is known. GET /api/platforms has the list.`);
  const part = { platform: name, sight: sightOf(ctx.actor) };
  const key = vehicle === undefined ? null : await findOnTop(ctx, vehicle, name);
  const [{ to, units }, events] = await Promise.all([
    readAtlasReach(ctx.db, part),
    ctx.db.select().from(fleetEvents).where(eq(fleetEvents.platform, name)).orderBy(asc(fleetEvents.at)),
  ]);
  const from = to === null ? null : new Date(to.getTime() - days * DAY_MS);
  const period = { ...part, from: from ?? ctx.now() };
  const steps = { commandPct: COMMAND_STEP_PCT, fluidC: FLUID_STEP_C, slipRpm: FINE_SLIP_RPM };
  const [cells, counts, own] = await Promise.all([
    readAtlasCells(ctx.db, period, steps),
    countAtlasVehicles(ctx.db, period, steps),
    key === null ? null : readAtlasStretches(ctx.db, key, period.from),
  ]);
  const [byCommand, byFluid] = [
    cells.filter(({ band }) => band !== REFERENCE_BAND),
    cells.filter(({ band }) => band === REFERENCE_BAND),
  ];
  const commandVehicles = counts.filter(({ isFluid }) => !isFluid);
  const settings = toEngineSettings(platform);
  const { bandEdgesPct, limitRpm } = settings;
  const slipEdges = edgesOfSlip(limitRpm);
  const coldest = Math.min(...byFluid.map(({ step }) => step));
  return {
    platform: {
      id,
      name: platform?.name ?? 'No platform',
      limit_rpm: limitRpm,
      band_edges_pct: [...bandEdgesPct],
    },
    from: from?.toISOString() ?? null,
    to: to?.toISOString() ?? null,
    vehicles: commandVehicles.find(({ step }) => step === null)?.vehicles ?? 0,
    stretches: byCommand.reduce((sum, cell) => sum + cell.stretches, 0),
    by_command: makePlane({
      cells: byCommand,
      vehicles: commandVehicles,
      slipEdges,
      xStep: COMMAND_STEP_PCT,
      first: Math.floor((bandEdgesPct[0] ?? 0) / COMMAND_STEP_PCT),
      last: Math.ceil((bandEdgesPct.at(-1) ?? 100) / COMMAND_STEP_PCT),
      vehicle: own === null ? null : toPoints(own, 'command'),
    }),
    by_fluid:
      byFluid.length === 0
        ? null
        : makePlane({
            cells: byFluid,
            vehicles: counts.filter(({ isFluid }) => isFluid),
            slipEdges,
            xStep: FLUID_STEP_C,
            first: coldest,
            last: coldest,
            vehicle: own === null ? null : toPoints(own, 'fluid'),
          }),
    standing:
      vehicle === undefined || own === null
        ? null
        : findStanding({ vehicle, stretches: own, cells: byCommand, bandEdgesPct }),
    events: events.map(toFleetEvent),
    choices: units,
  };
}

/** The vehicle that is laid on top, of this platform and to be seen by who asks. */
async function findOnTop({ db, actor }: Context, unit: string, platform: string): Promise<number> {
  const record = await readVehicleRecord(db, unit, sightOf(actor));
  const refuse = (message: string) =>
    new SlipdriftError('invalid_request', `Vehicle '${unit}' ${message}. Choose another, or none.`, {
      errors: [{ field: 'vehicle', message }],
    });
  if (record === null) throw refuse('is not known');
  const own = record.vehicle.platform ?? NO_PLATFORM;
  if (own !== platform)
    throw refuse(own === NO_PLATFORM ? 'has no platform' : `belongs to the platform '${own}'`);
  return record.vehicle.key;
}

function toPoints(stretches: readonly AtlasStretch[], axis: 'command' | 'fluid'): AtlasPlane['vehicle'] {
  return stretches.flatMap(({ band, dutyPct, fluidC, slipRpm, n, odometerKm, lastAtMs }) => {
    const isOfAxis = axis === 'fluid' ? band === REFERENCE_BAND : band !== REFERENCE_BAND;
    const x = axis === 'fluid' ? fluidC : dutyPct;
    if (!isOfAxis || x === null) return [];
    const at = new Date(lastAtMs).toISOString();
    return [{ x: tenth(x), slip_rpm: tenth(slipRpm), n, odometer_km: Math.round(odometerKm), at }];
  });
}

const tenth = (value: number): number => Math.round(value * 10) / 10;
