import { readVehicleRecord, type VehicleRecord } from '#db/queries/read-vehicle-record.ts';
import { SlipdriftError } from '#server/errors.ts';
import type { Context } from '#server/services/context.ts';
import { sightOf } from '#server/services/sight.ts';

/** A vehicle by its unit number, or the refusal that names it. */
export async function findVehicle(ctx: Context, unit: string): Promise<VehicleRecord> {
  const record = await readVehicleRecord(ctx.db, unit, sightOf(ctx.actor));
  if (record === null)
    throw new SlipdriftError(
      'not_found',
      `No vehicle '${unit}' is known. Vehicles appear with their first reading, or are registered with POST /api/vehicles.`,
    );
  return record;
}
