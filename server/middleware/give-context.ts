import type { Context } from 'hono';
import { createMiddleware } from 'hono/factory';
import type { Logger } from 'pino';

interface Given {
  log: Logger;
  actor: { from: string | null; request: string | null };
}

/**
 * Gives the request its own copy of what services work with: the log names the request, the actor where it came from.
 * `proxies` of our own stand between us and the network; each adds the address that it saw to X-Forwarded-For.
 */
export function giveContext<C extends Given>(context: C, proxies: number) {
  return createMiddleware<{ Variables: { requestId: string; context: C; known: boolean } }>(
    async (c, next) => {
      const request = c.var.requestId;
      const actor = { ...context.actor, from: addressOf(c, proxies), request };
      c.set('context', { ...context, actor, log: context.log.child({ request }) });
      c.set('known', false);
      await next();
    },
  );
}

function addressOf(c: Context, proxies: number): string | null {
  const seen = (c.req.header('X-Forwarded-For') ?? '').split(',').map((one) => one.trim());
  const behind = proxies > 0 ? seen.at(-proxies) : undefined;
  if (behind !== undefined && behind !== '') return behind.slice(0, 64);
  const { incoming } = (c.env ?? {}) as { incoming?: { socket?: { remoteAddress?: string } } };
  return incoming?.socket?.remoteAddress ?? null;
}
