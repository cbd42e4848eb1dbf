import type { Context } from 'hono';
import { SlipdriftError } from '#server/errors.ts';
import { BodyFault } from '#server/services/intake/body-fault.ts';
import { guardBody } from '#server/services/intake/guard-body.ts';
import type { RequestEnv } from './deps.ts';
import { createHold } from './hold-bytes.ts';
import { openBody } from './open-body.ts';

interface Wanted {
  maxBytes: number;
  idleMs: number;
  /** content types that are taken */
  types: RegExp;
}

const filesInHand = createHold(512 * 1024 * 1024);

/**
 * Has the whole of a body that is a file, unfolded where it is gzip, used. However many come at once, and however slowly:
 * until each was used, all of them hold so many bytes together and no more.
 */
export async function withBytes<T>(
  c: Context<RequestEnv>,
  wanted: Wanted,
  use: (bytes: Buffer) => Promise<T>,
  hold = filesInHand,
): Promise<T> {
  const own = hold();
  try {
    return await use(await readBytes(c, wanted, own.take));
  } finally {
    own.giveBack();
  }
}

async function readBytes(
  c: Context<RequestEnv>,
  { maxBytes, idleMs, types }: Wanted,
  take: (bytes: number) => void,
): Promise<Buffer> {
  const body = openBody(c.req.raw.body, idleMs);
  try {
    const type = c.req.header('Content-Type');
    if (!types.test(type ?? ''))
      throw new SlipdriftError(
        'unsupported_content_type',
        `The body was sent as ${type ?? 'nothing in particular'}, which is not taken here. Nothing was stored.`,
      );
    const encoding = c.req.header('Content-Encoding')?.trim().toLowerCase() ?? 'identity';
    if (encoding !== 'gzip' && encoding !== 'identity')
      throw new SlipdriftError(
        'unsupported_content_type',
        `Content-Encoding '${encoding}' is not taken: gzip or none. Nothing was stored.`,
      );
    const chunks: Buffer[] = [];
    for await (const chunk of guardBody(body.chunks, encoding === 'gzip', maxBytes)) {
      take(chunk.length);
      chunks.push(chunk);
    }
    const bytes = Buffer.concat(chunks);
    // A body may come slowly: who sends it may have lost their access meanwhile.
    await c.var.context.actor.confirm?.();
    if (bytes.length === 0) throw new SlipdriftError('body_empty', 'The file is empty. Nothing was stored.');
    return bytes;
  } catch (error) {
    if (!(await body.drain())) c.header('Connection', 'close');
    throw error instanceof BodyFault
      ? new SlipdriftError(error.code, `${error.message} Nothing was stored.`)
      : error;
  }
}
