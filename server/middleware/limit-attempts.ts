import { createMiddleware } from 'hono/factory';
import { RateLimiterMemory, RateLimiterRes } from 'rate-limiter-flexible';
import { SlipdriftError } from '#server/errors.ts';

/** Holds each network address to so many attempts a minute, whomever they are about. */
export function limitAttempts<C extends { actor: { from: string | null } }>(perMinute: number) {
  if (perMinute < 1) throw new RangeError('limitAttempts requires at least one attempt a minute');
  const limiter = new RateLimiterMemory({ points: perMinute, duration: 60 });
  return createMiddleware<{ Variables: { context: C } }>(async (c, next) => {
    try {
      await limiter.consume(c.var.context.actor.from ?? 'unknown');
    } catch (thrown) {
      if (!(thrown instanceof RateLimiterRes)) throw thrown;
      throw new SlipdriftError('too_many', 'Too many attempts from this address. Wait a minute.', {
        retryAfterS: Math.ceil(thrown.msBeforeNext / 1000),
      });
    }
    await next();
  });
}
