import { createMiddleware } from 'hono/factory';
import { SlipdriftError } from '#server/errors.ts';

const LOCAL = /^(localhost|127(\.(25[0-5]|2[0-4]\d|1?\d?\d)){3}|\[::1\])(:\d{1,5})?$/i;

/**
 * Browsers are served under this machine's own names and under the public address. A page of some other site could give
 * its own name our address and then read and write here through the visitor's browser; the Host header still tells such
 * requests apart. A request with a key comes from no such page.
 */
export function requireKnownHost(publicUrl: string | null) {
  const publicHost = publicUrl === null ? null : new URL(publicUrl).host.toLowerCase();
  return createMiddleware(async (c, next) => {
    const host = (c.req.header('Host') ?? '').toLowerCase();
    if (c.req.header('Authorization') === undefined && !LOCAL.test(host) && host !== publicHost)
      throw new SlipdriftError(
        'not_allowed',
        `People are served at ${publicUrl ?? 'this machine only'}, and the request was addressed to '${host}'. Set SLIPDRIFT_PUBLIC_URL to the address that people use.`,
      );
    await next();
  });
}

/** Whether a page of this origin is ours: that of the public address, or of the name that the request was sent to. */
export function createOwnOrigin(publicUrl: string | null): (origin: string, host: string) => boolean {
  const publicOrigin = publicUrl === null ? null : new URL(publicUrl).origin;
  return (origin, host) =>
    origin === publicOrigin || (LOCAL.test(host) && origin.toLowerCase() === `http://${host.toLowerCase()}`);
}
