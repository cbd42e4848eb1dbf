import type { Context } from 'hono';
import { SlipdriftError } from '#server/errors.ts';

/** A JSON body whose parts the service checks by itself. */
export async function readBody(c: Context): Promise<unknown> {
  const text = await c.req.text();
  if (text.trim() === '')
    throw new SlipdriftError('body_empty', 'The body is empty. Send one JSON object or an array of them.');
  try {
    return JSON.parse(text);
  } catch {
    throw new SlipdriftError('body_broken', 'The body is not JSON. Nothing was changed.');
  }
}
