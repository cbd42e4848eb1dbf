import { eq } from 'drizzle-orm';
import { readVehicleRecord } from '#db/queries/read-vehicle-record.ts';
import { packetEvidence, type packets } from '#db/schema/packets.ts';
import type { VehicleSeries } from '#server/contract/vehicle.ts';
import type { Context } from '#server/services/context.ts';
import { seriesOf } from '#server/services/vehicles/get-series.ts';
import { findPacket } from './find-packet.ts';
import { EVERY_VEHICLE } from './get-packet.ts';

/** The stretches of a packet's vehicle, for whoever sees the packet. */
export async function getPacketSeries(ctx: Context, id: number): Promise<VehicleSeries> {
  const { packet, vehicle } = await findPacket(ctx, id);
  return seriesOfPacket(ctx, packet, vehicle.unit);
}

/** As they are while the job is open; of a closed one as they were when it was opened, before another life began. */
export async function seriesOfPacket(
  ctx: Context,
  { id, state }: Pick<typeof packets.$inferSelect, 'id' | 'state'>,
  unit: string,
): Promise<VehicleSeries> {
  if (state === 'closed') {
    const [kept] = await ctx.db.select().from(packetEvidence).where(eq(packetEvidence.packet, id));
    if (kept !== undefined) return kept.series as VehicleSeries;
  }
  const record = await readVehicleRecord(ctx.db, unit, EVERY_VEHICLE);
  if (record === null) throw new Error('the vehicle of a packet is there');
  return seriesOf(ctx, record);
}
