import { createMiddleware } from 'hono/factory';

/** What somebody was answered stays in no cache: the next person at the machine may see less. */
export function keepOutOfCaches() {
  return createMiddleware(async (c, next) => {
    await next();
    // Not by `c.header`, which makes an answer that is there already anew, as a stream.
    if (!c.res.headers.has('Cache-Control')) c.res.headers.set('Cache-Control', 'no-store');
  });
}
