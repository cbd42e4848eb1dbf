import { eq } from 'drizzle-orm';
import { packetEvidence, type packets } from '#db/schema/packets.ts';
import type { VehicleSeries } from '#server/contract/vehicle.ts';
import type { Context } from '#server/services/context.ts';
import { seriesOf } from '#server/services/vehicles/get-series.ts';
import { findPacket, readPacketVehicle } from './find-packet.ts';

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
  return seriesOf(ctx, await readPacketVehicle(ctx.db, unit));
}
