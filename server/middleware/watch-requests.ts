import type { Context } from 'hono';
import { createMiddleware } from 'hono/factory';
import { matchedRoutes } from 'hono/route';
import type { Logger } from 'pino';
import type { Histogram } from 'prom-client';
import { maskSecrets } from './mask-secrets.ts';

const QUIET = /^\/(health|metrics)/;

/**
 * Logs and times every request: what was asked, how it went, how long it took; never a header, a query, a body or the
 * secret of an address.
 */
export function watchRequests(log: Logger, seconds: Histogram<'method' | 'route' | 'status'>) {
  return createMiddleware<{ Variables: { requestId: string } }>(async (c, next) => {
    const startedMs = performance.now();
    await next();
    const ms = performance.now() - startedMs;
    const { method } = c.req;
    const path = maskSecrets(c.req.path);
    const { status } = c.res;
    seconds.observe({ method, route: routeOf(c), status: String(status) }, ms / 1000);
    const level = QUIET.test(path) ? 'debug' : 'info';
    log[level]({ request: c.var.requestId, method, path, status, ms: Math.round(ms * 10) / 10 }, 'request');
  });
}

/** The pattern, not the path: a label must not take as many values as there are vehicles. Middleware answers to ALL. */
const routeOf = (c: Context): string =>
  matchedRoutes(c).find((route) => route.method !== 'ALL')?.path ?? 'none';
