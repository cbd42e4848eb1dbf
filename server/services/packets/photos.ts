import { promisify } from 'node:util';
import { gunzip } from 'node:zlib';
import { and, eq } from 'drizzle-orm';
import { imageSize } from 'image-size';
import { packetFiles } from '#db/schema/packets.ts';
import type { PacketFile } from '#server/contract/packets.ts';
import { SlipdriftError } from '#server/errors.ts';
import type { Context } from '#server/services/context.ts';
import { findPacket } from './find-packet.ts';
import { keepFile } from './keep-file.ts';
import { refuseClosed } from './record-finding.ts';
import { toPacketFile } from './to-packet-file.ts';

const unpack = promisify(gunzip);

export const PHOTO_BYTES = 12 * 1024 * 1024;
const MOST_PIXELS = 100_000_000;

/** Kinds that browsers draw and cannot run. */
const kinds: Record<string, string> = { jpg: 'image/jpeg', png: 'image/png', webp: 'image/webp' };

/** Keeps a photograph. What it is, its content says; what the sender calls it decides nothing. */
export async function addPhoto(ctx: Context, id: number, name: string, bytes: Buffer): Promise<PacketFile> {
  const { packet } = await findPacket(ctx, id);
  refuseClosed(packet);
  const type = readType(name, bytes);
  const row = await ctx.db.transaction((transaction) =>
    keepFile({ ...ctx, db: transaction }, id, { kind: 'photo', name, type, bytes, content: bytes }),
  );
  return toPacketFile(row);
}

function readType(name: string, bytes: Buffer): string {
  const size = measure(bytes);
  const type = size === null ? undefined : kinds[size.type ?? ''];
  if (size === null || type === undefined)
    throw new SlipdriftError(
      'invalid_request',
      `'${name}' is no photograph: JPEG, PNG and WebP are taken. It was not stored.`,
      { errors: [{ field: 'body', message: 'is no JPEG, PNG or WebP' }] },
    );
  if (size.width < 1 || size.height < 1 || size.width * size.height > MOST_PIXELS)
    throw new SlipdriftError(
      'invalid_request',
      `'${name}' says that it is ${size.width} by ${size.height} pixels. Up to 100 million pixels are taken; it was not stored.`,
      { errors: [{ field: 'body', message: 'has too many pixels' }] },
    );
  return type;
}

function measure(bytes: Buffer) {
  try {
    return imageSize(bytes);
  } catch {
    return null;
  }
}

/** A file of a packet as it came. */
export async function readFile(ctx: Context, id: number, file: number) {
  await findPacket(ctx, id);
  const [row] = await ctx.db
    .select()
    .from(packetFiles)
    .where(and(eq(packetFiles.packet, id), eq(packetFiles.id, file)));
  if (row === undefined) throw new SlipdriftError('not_found', `Packet ${id} has no file ${file}.`);
  const bytes = row.kind === 'trace' ? await unpack(row.content) : row.content;
  return { name: row.name, type: row.type, bytes };
}
