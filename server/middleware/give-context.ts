import { createMiddleware } from 'hono/factory';
import type { Logger } from 'pino';

/** Gives the request its own copy of what services work with: the log names the request, the actor who asks. */
export function giveContext<C extends { log: Logger; actor: string }>(context: C) {
  return createMiddleware<{ Variables: { requestId: string; context: C } }>(async (c, next) => {
    c.set('context', { ...context, log: context.log.child({ request: c.var.requestId }) });
    await next();
  });
}
