import { and, asc, desc, eq, isNotNull } from 'drizzle-orm';
import { readVehicleRecord } from '#db/queries/read-vehicle-record.ts';
import { findings, packetFiles } from '#db/schema/packets.ts';
import type { RoadTrace } from '#server/contract/test-steps.ts';
import type { Context } from '#server/services/context.ts';
import { seriesOf } from '#server/services/vehicles/get-series.ts';
import type { Units } from '#server/services/words/length-words.ts';
import { findPacket } from './find-packet.ts';
import { EVERY_VEHICLE, getPacket } from './get-packet.ts';

/** More photographs make a packet that no printer is glad of; the rest are named. */
const MOST_PHOTOS = 12;

/** Everything that a printed packet draws from. */
export async function gatherPrint(ctx: Context, id: number, units: Units) {
  const { vehicle, shop } = await findPacket(ctx, id);
  const [packet, record, [traced], photos] = await Promise.all([
    getPacket(ctx, id, units),
    readVehicleRecord(ctx.db, vehicle.unit, EVERY_VEHICLE),
    ctx.db
      .select({ trace: findings.trace })
      .from(findings)
      .where(and(eq(findings.packet, id), isNotNull(findings.trace)))
      .orderBy(desc(findings.id))
      .limit(1),
    ctx.db
      .select({ name: packetFiles.name, type: packetFiles.type, bytes: packetFiles.content })
      .from(packetFiles)
      .where(and(eq(packetFiles.packet, id), eq(packetFiles.kind, 'photo')))
      .orderBy(asc(packetFiles.id))
      .limit(MOST_PHOTOS),
  ]);
  return {
    packet,
    series: record === null || record.vehicle.lastReadingAt === null ? null : await seriesOf(ctx, record),
    trace: (traced?.trace ?? null) as RoadTrace | null,
    photos: photos.map((photo) => ({ ...photo, bytes: new Uint8Array(photo.bytes) })),
    madeAt: ctx.now().toISOString(),
    timeZone: shop?.timeZone ?? 'UTC',
  };
}
