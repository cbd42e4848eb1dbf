import type { Database } from '#db/client.ts';
import { findPacketRow, type PacketRow, type PacketSight } from '#db/queries/find-packet.ts';
import { readVehicleRecord, type VehicleRecord } from '#db/queries/read-vehicle-record.ts';
import { SlipdriftError } from '#server/errors.ts';
import type { Actor } from '#server/services/actor.ts';
import type { Context } from '#server/services/context.ts';

/** Which packets the one who asks may see: a shop those of its own, also when the vehicle has gone home. */
export const packetSightOf = ({ depots, role, link }: Actor): PacketSight => ({
  depots,
  ownShopOnly: role === 'shop',
  only: link?.packet ?? null,
});

/** A packet by its number, or the refusal that names it. */
export async function findPacket(
  { db, actor }: Pick<Context, 'db' | 'actor'>,
  id: number,
): Promise<PacketRow> {
  const row = await findPacketRow(db, id, packetSightOf(actor));
  if (row === null)
    throw new SlipdriftError('not_found', `There is no packet ${id}, or it is not yours to see.`);
  return row;
}

/** Whether the one who asks may record findings and close jobs. */
export const mayReport = ({ role, right, link }: Actor): boolean =>
  link?.mayReport ?? (role === null ? right === 'write' || right === 'all' : role !== 'analyst');

/** Whether the one who asks may hand out links. */
export const mayShare = (actor: Actor): boolean => actor.link === null && mayReport(actor);

const EVERY_VEHICLE = { depots: null, atShopOnly: false };

/** All of a packet's vehicle: whoever sees the packet sees it, wherever it belongs. */
export async function readPacketVehicle(db: Database, unit: string): Promise<VehicleRecord> {
  const record = await readVehicleRecord(db, unit, EVERY_VEHICLE);
  if (record === null) throw new Error('the vehicle of a packet is there');
  return record;
}
