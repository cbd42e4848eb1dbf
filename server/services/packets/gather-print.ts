import { and, asc, desc, eq, isNotNull } from 'drizzle-orm';
import { findings, packetFiles } from '#db/schema/packets.ts';
import type { RoadTrace } from '#server/contract/test-steps.ts';
import type { Context } from '#server/services/context.ts';
import type { Units } from '#server/services/words/length-words.ts';
import { findPacket } from './find-packet.ts';
import { getPacket } from './get-packet.ts';
import { seriesOfPacket } from './get-packet-series.ts';

/** More photographs make a packet that no printer is glad of; the rest are named. */
const MOST_PHOTOS = 12;

/** Everything that a printed packet draws from. */
export async function gatherPrint(ctx: Context, id: number, units: Units) {
  const { packet: row, vehicle, span, shop } = await findPacket(ctx, id);
  const [packet, series, [traced], photos] = await Promise.all([
    getPacket(ctx, id, units),
    span === null ? null : seriesOfPacket(ctx, row, vehicle.unit),
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
    series,
    trace: (traced?.trace ?? null) as RoadTrace | null,
    photos: photos.map((photo) => ({ ...photo, bytes: new Uint8Array(photo.bytes) })),
    madeAt: ctx.now().toISOString(),
    timeZone: shop?.timeZone ?? 'UTC',
  };
}
