import type { PacketFileRow } from '#db/queries/find-packet.ts';
import type { PacketFile } from '#server/contract/packets.ts';

/** A file of a packet as the interface shows it, without its content. */
export const toPacketFile = ({
  id,
  kind,
  name,
  type,
  size,
  addedAt,
  addedBy,
}: PacketFileRow): PacketFile => ({
  id,
  kind,
  name,
  type,
  bytes: size,
  added_at: addedAt.toISOString(),
  added_by: addedBy,
});
