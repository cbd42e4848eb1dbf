import { createHash } from 'node:crypto';
import { and, count, eq, sum } from 'drizzle-orm';
import { lockPacket } from '#db/queries/find-packet.ts';
import { packetFiles } from '#db/schema/packets.ts';
import { SlipdriftError } from '#server/errors.ts';
import { noteChanges } from '#server/services/changes/note-changes.ts';
import type { Context } from '#server/services/context.ts';
import { refuseClosed } from './record-finding.ts';

export const MOST_FILES = 60;
const MOST_BYTES = 512 * 1024 * 1024;

export interface NewFile {
  kind: 'photo' | 'trace';
  name: string;
  /** told from the content */
  type: string;
  /** as it came */
  bytes: Buffer;
  /** as it is kept */
  content: Buffer;
}

/** Keeps a file with a packet, inside a transaction; the same file twice is kept once. */
export async function keepFile(ctx: Context, packet: number, file: NewFile) {
  refuseClosed(await lockPacket(ctx.db, packet));
  const digest = createHash('sha256').update(file.bytes).digest();
  const [known] = await ctx.db
    .select()
    .from(packetFiles)
    .where(
      and(eq(packetFiles.packet, packet), eq(packetFiles.kind, file.kind), eq(packetFiles.digest, digest)),
    );
  if (known !== undefined) return known;
  const [kept] = await ctx.db
    .select({ n: count(), bytes: sum(packetFiles.size).mapWith(Number) })
    .from(packetFiles)
    .where(eq(packetFiles.packet, packet));
  if ((kept?.n ?? 0) >= MOST_FILES || (kept?.bytes ?? 0) + file.bytes.length > MOST_BYTES)
    throw new SlipdriftError(
      'conflict',
      `Packet ${packet} has ${kept?.n} files already; it takes ${MOST_FILES}, of 512 MiB together. This one was not stored.`,
    );
  const [row] = await ctx.db
    .insert(packetFiles)
    .values({
      packet,
      kind: file.kind,
      name: file.name,
      type: file.type,
      size: file.bytes.length,
      digest,
      content: file.content,
      addedAt: ctx.now(),
      addedBy: ctx.actor.name,
    })
    .returning();
  if (row === undefined) throw new Error('an insert answers its row');
  await noteChanges(ctx.db, ctx, [
    {
      action: 'file_added',
      subject: 'packet',
      subjectId: String(packet),
      after: { kind: file.kind, name: file.name, bytes: file.bytes.length },
    },
  ]);
  return row;
}
