import { createMiddleware } from 'hono/factory';
import { SlipdriftError } from '#server/errors.ts';

const LOCAL = /^(localhost|127(\.\d{1,3}){3}|\[::1\])(:\d+)?$/i;

/**
 * Without a key, this machine alone is served. A page of some other site could give its own name our address and then
 * read and write here through the visitor's browser; the Host header still tells such requests apart.
 */
export function requireLocalHost() {
  return createMiddleware(async (c, next) => {
    const host = c.req.header('Host') ?? '';
    if (!LOCAL.test(host))
      throw new SlipdriftError(
        'not_allowed',
        `Without a key only this machine is served, and the request was addressed to '${host}'. Set SLIPDRIFT_API_KEY to serve others.`,
      );
    await next();
  });
}
