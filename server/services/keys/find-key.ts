import { eq, sql } from 'drizzle-orm';
import { prepareOnce } from '#db/prepare-once.ts';
import { accessKeys } from '#db/schema/access.ts';
import { SlipdriftError } from '#server/errors.ts';
import { createRate } from '#server/services/access/hold-rate.ts';
import { type Actor, programActor } from '#server/services/actor.ts';
import type { Context } from '#server/services/context.ts';
import { digestOf, isSame, readKey } from './key-text.ts';

type Row = typeof accessKeys.$inferSelect;

const MIB = 1024 * 1024;
const USE_NOTED_EVERY_MS = 60_000;

const byId = prepareOnce((db) =>
  db
    .select()
    .from(accessKeys)
    .where(eq(accessKeys.id, sql.placeholder('id')))
    .prepare('key'),
);

/** Tells whose key a request brings, and holds each key to its rate. `setUpKey` is that of SLIPDRIFT_API_KEY. */
export function createKeyFinder({ db, now }: Pick<Context, 'db' | 'now'>, setUpKey: string | null) {
  const setUpDigest = setUpKey === null ? null : digestOf(setUpKey);
  const rates = new Map<number, ReturnType<typeof createRate>>();

  return async (text: string, from: string | null): Promise<Actor> => {
    if (setUpDigest !== null && isSame(digestOf(text), setUpDigest))
      return { ...programActor('set-up key'), kind: 'key' };
    const parts = readKey(text);
    const [row] = parts === null ? [] : await byId(db).execute({ id: parts.id });
    if (parts === null || row === undefined || !isSame(digestOf(parts.secret), row.digest))
      throw new SlipdriftError('unauthorized', 'This key is not known here.');
    refuseEnded(row, now());
    await hold(row);
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
      link: null,
      maxBodyBytes: row.maxBodyMib === null ? null : row.maxBodyMib * MIB,
      confirm: async () => {
        const [latest] = await byId(db).execute({ id: row.id });
        if (latest === undefined) throw new SlipdriftError('unauthorized', 'This key is not known here.');
        refuseEnded(latest, now());
      },
    };
  };

  function hold({ id, name, requestsPerMinute }: Row): Promise<void> {
    const rate = rates.get(requestsPerMinute) ?? createRate(requestsPerMinute);
    rates.set(requestsPerMinute, rate);
    return rate(
      id,
      `The key '${name}' may be used ${requestsPerMinute} times a minute. Nothing of this request was stored; send it again later.`,
    );
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
