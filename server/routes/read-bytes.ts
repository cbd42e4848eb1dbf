import type { Context } from 'hono';
import { SlipdriftError } from '#server/errors.ts';
import { BodyFault } from '#server/services/intake/body-fault.ts';
import { guardBody } from '#server/services/intake/guard-body.ts';
import type { RequestEnv } from './deps.ts';
import { openBody } from './open-body.ts';

interface Wanted {
  maxBytes: number;
  idleMs: number;
  /** content types that are taken */
  types: RegExp;
}

/** The whole of a body that is a file, unfolded where it is gzip. */
export async function readBytes(
  c: Context<RequestEnv>,
  { maxBytes, idleMs, types }: Wanted,
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
    for await (const chunk of guardBody(body.chunks, encoding === 'gzip', maxBytes).chunks)
      chunks.push(chunk);
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
