import { createMiddleware } from 'hono/factory';

/** What somebody was answered stays in no cache: the next person at the machine may see less. */
export function keepOutOfCaches() {
  return createMiddleware(async (c, next) => {
    await next();
    if (!c.res.headers.has('Cache-Control')) c.header('Cache-Control', 'no-store');
  });
}
