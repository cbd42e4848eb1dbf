import type { Context } from 'hono';
import { createMiddleware } from 'hono/factory';
import { SlipdriftError } from '#server/errors.ts';

export interface Identified<A> {
  actor: A;
  /** cookies to renew */
  cookies: readonly string[];
}

/** What a request is for, as far as whoever holds a link is told apart by it. */
export interface Asked {
  method: string;
  path: string;
  /** what the browser calls itself */
  browser: string;
}

interface Finders<A, S> {
  /** whose key this is; refuses one that is not known, has run out or was revoked */
  findKey(key: string, from: string | null, asked: Asked): Promise<A>;
  /** who is signed in with these cookies; null where nobody is */
  findPerson(headers: Headers): Promise<S | null>;
}

/** Puts who asks into the context: by the key that the request brings or, in a browser, by its cookie. */
export function identify<
  A extends object,
  S extends Identified<A>,
  C extends { actor: A & { from: string | null; request: string | null } },
>({ findKey, findPerson }: Finders<A, S>, isOwnOrigin: (origin: string, host: string) => boolean) {
  return createMiddleware<{ Variables: { context: C; known: boolean; signedIn: S | null } }>(
    async (c, next) => {
      const { actor: nobody } = c.var.context;
      c.set('signedIn', null);
      const authorization = c.req.header('Authorization');
      const become = (actor: A) => {
        const { from, request } = nobody;
        c.set('context', { ...c.var.context, actor: { ...actor, from, request } });
        c.set('known', true);
      };
      if (authorization !== undefined) {
        const { method, path } = c.req;
        const browser = c.req.header('User-Agent') ?? '';
        become(await findKey(readBearer(authorization), nobody.from, { method, path, browser }));
        return next();
      }
      if (c.req.header('Cookie') === undefined) return next();
      refuseOtherSites(c, isOwnOrigin);
      const found = await findPerson(c.req.raw.headers);
      if (found === null) return next();
      become(found.actor);
      c.set('signedIn', found);
      await next();
      for (const cookie of found.cookies) c.header('Set-Cookie', cookie, { append: true });
    },
  );
}

function readBearer(authorization: string): string {
  const key = /^Bearer +(\S+) *$/i.exec(authorization)?.[1];
  if (key === undefined)
    throw new SlipdriftError('unauthorized', 'Send the key as a header: Authorization: Bearer <key>.');
  return key;
}

const HARMLESS = new Set(['GET', 'HEAD', 'OPTIONS']);

/**
 * A cookie comes along whoever makes the browser send the request, so what changes something must come from a page of
 * ours: browsers name the page's origin in every such request.
 */
function refuseOtherSites(c: Context, isOwnOrigin: (origin: string, host: string) => boolean): void {
  if (HARMLESS.has(c.req.method)) return;
  const origin = c.req.header('Origin');
  if (origin !== undefined && isOwnOrigin(origin, c.req.header('Host') ?? '')) return;
  throw new SlipdriftError(
    'not_allowed',
    `This request came with a cookie from ${origin === undefined ? 'a page that does not say where it is from' : `'${origin}'`}. Nothing was changed; use Slipdrift's own pages, or a key.`,
  );
}
