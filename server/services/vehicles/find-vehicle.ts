import {
  type PlacedVehicle,
  readPlacedVehicle,
  readVehicleRecord,
  type VehicleRecord,
} from '#db/queries/read-vehicle-record.ts';
import { SlipdriftError } from '#server/errors.ts';
import type { Context } from '#server/services/context.ts';
import { sightOf } from '#server/services/sight.ts';

/** A vehicle by its unit number, or the refusal that names it. */
export const findVehicle = async (ctx: Context, unit: string): Promise<VehicleRecord> =>
  (await readVehicleRecord(ctx.db, unit, sightOf(ctx.actor))) ?? refuse(unit);

/** The same without what is known of its odometer. */
export const findPlacedVehicle = async (ctx: Context, unit: string): Promise<PlacedVehicle> =>
  (await readPlacedVehicle(ctx.db, unit, sightOf(ctx.actor))) ?? refuse(unit);

function refuse(unit: string): never {
  throw new SlipdriftError(
    'not_found',
    `No vehicle '${unit}' is known. Vehicles appear with their first reading, or are registered with POST /api/vehicles.`,
  );
}
