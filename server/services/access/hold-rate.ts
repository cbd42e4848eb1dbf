import { RateLimiterMemory, RateLimiterRes } from 'rate-limiter-flexible';
import { SlipdriftError } from '#server/errors.ts';

/** Lets each asker do something so often in a minute; counts for this process alone. */
export function createRate(perMinute: number) {
  if (perMinute < 1) throw new RangeError('createRate requires at least one a minute');
  const limiter = new RateLimiterMemory({ points: perMinute, duration: 60 });
  return async (asker: string, refusal: string): Promise<void> => {
    try {
      await limiter.consume(asker);
    } catch (thrown) {
      if (!(thrown instanceof RateLimiterRes)) throw thrown;
      throw new SlipdriftError('too_many', refusal, { retryAfterS: Math.ceil(thrown.msBeforeNext / 1000) });
    }
  };
}
