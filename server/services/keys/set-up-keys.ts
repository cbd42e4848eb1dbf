import { and, asc, desc, eq, isNull } from 'drizzle-orm';
import { accessKeys } from '#db/schema/access.ts';
import type { AccessKey, KeyInput, NewKey } from '#server/contract/keys.ts';
import { SlipdriftError } from '#server/errors.ts';
import { noteChanges } from '#server/services/changes/note-changes.ts';
import type { Context } from '#server/services/context.ts';
import { digestOf, makeKey } from './key-text.ts';

type Row = typeof accessKeys.$inferSelect;

/** Makes a key. Its text is in the answer and nowhere else. */
export async function addKey(ctx: Context, input: KeyInput): Promise<NewKey> {
  const expiresAt = input.expires_at === null ? null : new Date(input.expires_at);
  if (expiresAt !== null && expiresAt <= ctx.now())
    throw new SlipdriftError('invalid_request', 'expires_at has passed already. No key was made.', {
      errors: [{ field: 'expires_at', message: 'must lie ahead' }],
    });
  const { id, secret, text } = makeKey();
  return ctx.db.transaction(async (transaction) => {
    const [row] = await transaction
      .insert(accessKeys)
      .values({
        id,
        name: input.name,
        right: input.right,
        digest: digestOf(secret),
        requestsPerMinute: input.requests_per_minute,
        maxBodyMib: input.max_body_mib,
        createdAt: ctx.now(),
        createdBy: ctx.actor.name,
        expiresAt,
      })
      .returning();
    if (row === undefined) throw new Error('an inserted row must come back');
    const { name, right, expires_at, requests_per_minute, max_body_mib } = input;
    await noteChanges(transaction, ctx, [
      {
        action: 'created',
        subject: 'key',
        subjectId: id,
        after: { name, right, expires_at, requests_per_minute, max_body_mib },
      },
    ]);
    return { key: toAccessKey(row, ctx.now()), secret: text };
  });
}

/** Keys in use first, newest first. */
export async function listKeys(ctx: Context): Promise<AccessKey[]> {
  const rows = await ctx.db
    .select()
    .from(accessKeys)
    .orderBy(asc(accessKeys.revokedAt), desc(accessKeys.createdAt), asc(accessKeys.id));
  const keys = rows.map((row) => toAccessKey(row, ctx.now()));
  return [
    ...keys.filter(({ state }) => state === 'active'),
    ...keys.filter(({ state }) => state !== 'active'),
  ];
}

/** A revoked key stays in the list, so that what it sent can be traced. */
export async function revokeKey(ctx: Context, id: string): Promise<AccessKey> {
  return ctx.db.transaction(async (transaction) => {
    const [row] = await transaction.select().from(accessKeys).where(eq(accessKeys.id, id));
    if (row === undefined)
      throw new SlipdriftError('not_found', `There is no key ${id}. GET /api/keys has the list.`);
    const [revoked] = await transaction
      .update(accessKeys)
      .set({ revokedAt: ctx.now() })
      .where(and(eq(accessKeys.id, id), isNull(accessKeys.revokedAt)))
      .returning();
    if (revoked !== undefined)
      await noteChanges(transaction, ctx, [
        { action: 'revoked', subject: 'key', subjectId: id, before: { name: row.name, right: row.right } },
      ]);
    return toAccessKey(revoked ?? row, ctx.now());
  });
}

function toAccessKey(row: Row, now: Date): AccessKey {
  const ended = row.expiresAt !== null && row.expiresAt <= now;
  return {
    id: row.id,
    name: row.name,
    right: row.right,
    state: row.revokedAt !== null ? 'revoked' : ended ? 'expired' : 'active',
    begins: `slipdrift_${row.id}_…`,
    created_at: row.createdAt.toISOString(),
    created_by: row.createdBy,
    expires_at: row.expiresAt?.toISOString() ?? null,
    revoked_at: row.revokedAt?.toISOString() ?? null,
    used_at: row.usedAt?.toISOString() ?? null,
    used_from: row.usedFrom,
    requests_per_minute: row.requestsPerMinute,
    max_body_mib: row.maxBodyMib,
  };
}
