import { and, desc, eq, inArray, or, type SQL, sql } from 'drizzle-orm';
import type { Database } from '#db/client.ts';
import { depots, platforms, vehicles } from '#db/schema/fleet.ts';
import { readingSpans } from '#db/schema/intake.ts';
import { findings, packetFiles, packets } from '#db/schema/packets.ts';
import { seenBy } from './seen-vehicles.ts';

/** Which packets somebody sees. */
export interface PacketSight {
  /** of vehicles or shops of these depots; null for all */
  depots: readonly string[] | null;
  /** those of their own shop alone, wherever the vehicle belongs, and open ones of vehicles that came to it since */
  ownShopOnly: boolean;
  /** this one and no other */
  only: number | null;
}

export function packetSeenBy({ depots: own, ownShopOnly, only }: PacketSight): SQL | undefined {
  if (only !== null) return eq(packets.id, only);
  if (own === null) return undefined;
  const atShop = inArray(packets.depot, [...own]);
  if (ownShopOnly)
    return or(atShop, and(eq(packets.state, 'open'), seenBy({ depots: own, atShopOnly: true })));
  return or(atShop, inArray(vehicles.depot, [...own]));
}

/** A packet with its vehicle, how far its readings reach, platform and the depot of its shop; null where there is none that they see. */
export async function findPacketRow(db: Database, id: number, sight: PacketSight) {
  const [row] = await db
    .select({ packet: packets, vehicle: vehicles, span: readingSpans, platform: platforms, shop: depots })
    .from(packets)
    .innerJoin(vehicles, eq(vehicles.key, packets.vehicle))
    .leftJoin(readingSpans, eq(readingSpans.vehicle, packets.vehicle))
    .leftJoin(platforms, eq(platforms.id, vehicles.platform))
    .leftJoin(depots, eq(depots.id, packets.depot))
    .where(and(eq(packets.id, id), packetSeenBy(sight)));
  return row ?? null;
}

export type PacketRow = NonNullable<Awaited<ReturnType<typeof findPacketRow>>>;

/** Nobody else changes this packet until the end of the transaction. */
export async function lockPacket(transaction: Database, id: number) {
  const [row] = await transaction.select().from(packets).where(eq(packets.id, id)).for('no key update');
  if (row === undefined) throw new Error('a packet is never deleted while its vehicle is there');
  return row;
}

/** The open packet of a vehicle. */
export async function findOpenPacket(db: Database, vehicle: number): Promise<number | null> {
  const [row] = await db
    .select({ id: packets.id })
    .from(packets)
    .where(and(eq(packets.vehicle, vehicle), eq(packets.state, 'open')));
  return row?.id ?? null;
}

/** What test steps showed, newest first; without the drawn traces, which are large. */
export function listFindings(db: Database, ofPackets: readonly number[]) {
  return db
    .select({
      id: findings.id,
      packet: findings.packet,
      step: findings.step,
      at: findings.at,
      by: findings.by,
      odometerKm: findings.odometerKm,
      input: findings.input,
      judgement: findings.judgement,
      hasTrace: sql<boolean>`${findings.trace} is not null`,
    })
    .from(findings)
    .where(inArray(findings.packet, [...ofPackets]))
    .orderBy(desc(findings.id));
}

export type FindingRow = Awaited<ReturnType<typeof listFindings>>[number];

/** Files of a packet without their content. */
export function listPacketFiles(db: Database, packet: number) {
  const { id, kind, name, type, size, addedAt, addedBy } = packetFiles;
  return db
    .select({ id, kind, name, type, size, addedAt, addedBy })
    .from(packetFiles)
    .where(eq(packetFiles.packet, packet))
    .orderBy(packetFiles.id);
}

export type PacketFileRow = Awaited<ReturnType<typeof listPacketFiles>>[number];
