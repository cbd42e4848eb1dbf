import { readVehicleRecord } from '#db/queries/read-vehicle-record.ts';
import type { VehicleSeries } from '#server/contract/vehicle.ts';
import type { Context } from '#server/services/context.ts';
import { seriesOf } from '#server/services/vehicles/get-series.ts';
import { findPacket } from './find-packet.ts';
import { EVERY_VEHICLE } from './get-packet.ts';

/** The stretches of a packet's vehicle, for whoever sees the packet. */
export async function getPacketSeries(ctx: Context, id: number): Promise<VehicleSeries> {
  const { vehicle } = await findPacket(ctx, id);
  const record = await readVehicleRecord(ctx.db, vehicle.unit, EVERY_VEHICLE);
  if (record === null) throw new Error('the vehicle of a packet is there');
  return seriesOf(ctx, record);
}
