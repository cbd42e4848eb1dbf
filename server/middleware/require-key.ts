import { createHash, timingSafeEqual } from 'node:crypto';
import { createMiddleware } from 'hono/factory';
import { SlipdriftError } from '#server/errors.ts';

/** Lets in who sends `Authorization: Bearer <key>`. */
export function requireKey(key: string) {
  if (key === '') throw new RangeError('requireKey requires a key');
  const expected = digest(key);
  return createMiddleware(async (c, next) => {
    const sent = /^Bearer +(\S+) *$/i.exec(c.req.header('Authorization') ?? '')?.[1];
    if (sent === undefined)
      throw new SlipdriftError('unauthorized', 'Send the key as a header: Authorization: Bearer <key>.');
    // Digests have one length, and comparing them takes the same time however much of the key is right.
    if (!timingSafeEqual(digest(sent), expected))
      throw new SlipdriftError('unauthorized', 'This key is not known here.');
    await next();
  });
}

const digest = (text: string): Buffer => createHash('sha256').update(text).digest();
