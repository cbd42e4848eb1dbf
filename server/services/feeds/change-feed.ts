import { randomBytes } from 'node:crypto';
import { eq } from 'drizzle-orm';
import { findDepot } from '#db/queries/lock-booking.ts';
import { depotFeeds } from '#db/schema/planning.ts';
import type { DepotFeed, NewDepotFeed } from '#server/contract/bookings.ts';
import { SlipdriftError } from '#server/errors.ts';
import { noteChanges } from '#server/services/changes/note-changes.ts';
import type { Context } from '#server/services/context.ts';
import { isWithin } from '#server/services/fleet/other-depots.ts';
import { digestOf } from '#server/services/keys/key-text.ts';

/** Whether a depot has a secret address, since when, and when somebody last fetched it; never the address itself. */
export async function getFeed(ctx: Context, depot: string): Promise<DepotFeed> {
  const { id } = await findOwn(ctx, depot);
  const [row] = await ctx.db.select().from(depotFeeds).where(eq(depotFeeds.depot, id));
  return {
    depot: id,
    made_at: row?.createdAt.toISOString() ?? null,
    made_by: row?.createdBy ?? null,
    used_at: row?.usedAt?.toISOString() ?? null,
  };
}

/** Makes the address of a depot's calendar, or another one, at which the one before ends. */
export async function makeFeed(ctx: Context, depot: string, origin: string): Promise<NewDepotFeed> {
  const secret = randomBytes(32).toString('base64url');
  await ctx.db.transaction(async (transaction) => {
    const { id, name } = await findOwn({ ...ctx, db: transaction }, depot);
    const removed = await transaction
      .delete(depotFeeds)
      .where(eq(depotFeeds.depot, id))
      .returning({ depot: depotFeeds.depot });
    const set = { digest: digestOf(secret), createdAt: ctx.now(), createdBy: ctx.actor.name, usedAt: null };
    await transaction
      .insert(depotFeeds)
      .values({ depot: id, ...set })
      .onConflictDoUpdate({ target: depotFeeds.depot, set });
    await noteChanges(transaction, ctx, [
      {
        action: removed.length === 0 ? 'created' : 'changed',
        subject: 'feed',
        subjectId: id,
        after: { name },
      },
    ]);
  });
  return { address: `${origin}/api/feeds/${secret}.ics` };
}

/** Ends the address: calendars that have it fetch nothing any more. */
export async function endFeed(ctx: Context, depot: string): Promise<void> {
  await ctx.db.transaction(async (transaction) => {
    const { id, name } = await findOwn({ ...ctx, db: transaction }, depot);
    const removed = await transaction
      .delete(depotFeeds)
      .where(eq(depotFeeds.depot, id))
      .returning({ depot: depotFeeds.depot });
    if (removed.length === 0)
      throw new SlipdriftError('not_found', `${name} has no calendar address. Nothing was changed.`);
    await noteChanges(transaction, ctx, [
      { action: 'deleted', subject: 'feed', subjectId: id, before: { name } },
    ]);
  });
}

async function findOwn(ctx: Context, id: string) {
  const depot = await findDepot(ctx.db, id);
  if (depot === null) throw new SlipdriftError('not_found', `No depot '${id}' is known.`);
  if (isWithin(ctx, id)) return depot;
  throw new SlipdriftError('not_allowed', `You do not work for ${depot.name}. Nothing was changed.`);
}
