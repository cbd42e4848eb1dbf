import { eq } from 'drizzle-orm';
import { RateLimiterMemory, RateLimiterRes } from 'rate-limiter-flexible';
import { accessKeys } from '#db/schema/access.ts';
import { SlipdriftError } from '#server/errors.ts';
import { type Actor, programActor } from '#server/services/actor.ts';
import type { Context } from '#server/services/context.ts';
import { digestOf, isSame, readKey } from './key-text.ts';

type Row = typeof accessKeys.$inferSelect;

const MIB = 1024 * 1024;
const USE_NOTED_EVERY_MS = 60_000;

/** Tells whose key a request brings, and holds each key to its rate. `setUpKey` is that of SLIPDRIFT_API_KEY. */
export function createKeyFinder({ db, now }: Pick<Context, 'db' | 'now'>, setUpKey: string | null) {
  const setUpDigest = setUpKey === null ? null : digestOf(setUpKey);
  const limiters = new Map<number, RateLimiterMemory>();

  return async (text: string, from: string | null): Promise<Actor> => {
    if (setUpDigest !== null && isSame(digestOf(text), setUpDigest))
      return { ...programActor('set-up key'), kind: 'key' };
    const parts = readKey(text);
    const [row] = parts === null ? [] : await db.select().from(accessKeys).where(eq(accessKeys.id, parts.id));
    if (parts === null || row === undefined || !isSame(digestOf(parts.secret), row.digest))
      throw new SlipdriftError('unauthorized', 'This key is not known here.');
    refuseEnded(row, now());
    await consume(row);
    await noteUse(row, from);
    return {
      kind: 'key',
      id: row.id,
      name: row.name,
      role: null,
      right: row.right,
      depots: null,
      from,
      request: null,
      maxBodyBytes: row.maxBodyMib === null ? null : row.maxBodyMib * MIB,
    };
  };

  async function consume({ id, name, requestsPerMinute: points }: Row): Promise<void> {
    const limiter = limiters.get(points) ?? new RateLimiterMemory({ points, duration: 60 });
    limiters.set(points, limiter);
    try {
      await limiter.consume(id);
    } catch (thrown) {
      if (!(thrown instanceof RateLimiterRes)) throw thrown;
      throw new SlipdriftError(
        'too_many',
        `The key '${name}' may be used ${points} times a minute. Nothing of this request was stored; send it again later.`,
        { retryAfterS: Math.ceil(thrown.msBeforeNext / 1000) },
      );
    }
  }

  async function noteUse({ id, usedAt }: Row, from: string | null): Promise<void> {
    const at = now();
    if (usedAt !== null && Math.abs(at.getTime() - usedAt.getTime()) < USE_NOTED_EVERY_MS) return;
    await db.update(accessKeys).set({ usedAt: at, usedFrom: from }).where(eq(accessKeys.id, id));
  }
}

function refuseEnded({ name, expiresAt, revokedAt }: Row, now: Date): void {
  if (revokedAt !== null) throw new SlipdriftError('unauthorized', `The key '${name}' was revoked.`);
  if (expiresAt !== null && expiresAt <= now)
    throw new SlipdriftError('unauthorized', `The key '${name}' ran out on ${expiresAt.toISOString()}.`);
}
