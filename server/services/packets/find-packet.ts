import { findPacketRow, type PacketRow, type PacketSight } from '#db/queries/find-packet.ts';
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
export const mayShare = ({ role, right, link }: Actor): boolean =>
  link === null && (role === null ? right === 'write' || right === 'all' : role !== 'analyst');
