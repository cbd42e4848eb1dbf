import { createMiddleware } from 'hono/factory';
import { SlipdriftError } from '#server/errors.ts';

/** Storage cannot hold the character NUL, so nothing there has it in its name: declined before anything is looked up. */
export function refuseNul() {
  return createMiddleware(async (c, next) => {
    if (c.req.url.includes('%00'))
      throw new SlipdriftError(
        'invalid_request',
        'The address has the character NUL in it. Nothing was changed.',
      );
    await next();
  });
}
