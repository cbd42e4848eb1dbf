import { createMiddleware } from 'hono/factory';
import { SlipdriftError } from '#server/errors.ts';

/** Storage cannot hold the character NUL, so nothing there has it in its name: declined before anything is looked up. */
export function refuseNul() {
  return createMiddleware(async (c, next) => {
    if (c.req.url.includes('%00')) {
      const errors = [...new URL(c.req.url).searchParams]
        .filter(([, value]) => value.includes('\0'))
        .map(([field]) => ({ field, message: 'must not contain control characters' }));
      throw new SlipdriftError(
        'invalid_request',
        'The address has the character NUL in it. Nothing was changed.',
        { errors },
      );
    }
    await next();
  });
}
