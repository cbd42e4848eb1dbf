import { randomUUID } from 'node:crypto';
import { eq } from 'drizzle-orm';
import { insertPosts } from '#db/queries/webhook-events.ts';
import { claimPost } from '#db/queries/webhook-posts.ts';
import { webhookPosts } from '#db/schema/notices.ts';
import type { WebhookEvent, WebhookPost } from '#server/contract/webhooks.ts';
import { SlipdriftError } from '#server/errors.ts';
import { DEFAULT_HORIZON_KM } from '#server/services/assessment/horizon.ts';
import type { Context } from '#server/services/context.ts';
import { getPost } from './list-webhooks.ts';
import { sendPost } from './send-post.ts';
import { lockOpen } from './set-up-webhooks.ts';

/** No vehicle has this key. */
const NO_VEHICLE = 0;

/** Sends an event that is none, once, and answers how it went. Also to a webhook that is paused. */
export async function sendTrial(
  ctx: Context,
  webhook: number,
  publicUrl: string | null,
): Promise<WebhookPost> {
  const id = randomUUID();
  const at = ctx.now();
  const body: WebhookEvent = {
    event: id,
    type: 'trial',
    at: at.toISOString(),
    vehicle: 'TRIAL',
    depot: null,
    platform: null,
    from: 'steady',
    to: 'watch',
    odometer_km: null,
    reasons: ['A trial: nothing has changed'],
    km_to_limit: { p10: null, p50: null, p90: null },
    chance_within_horizon: null,
    horizon_km: DEFAULT_HORIZON_KM,
  };
  await ctx.db.transaction(async (transaction) => {
    await lockOpen(transaction, webhook);
    // Due never by itself: it is taken below, by its id.
    await insertPosts(transaction, [{ id, webhook, vehicle: NO_VEHICLE, at, body, nextAt: null }]);
  });
  return sendOne(ctx, webhook, id, publicUrl, false);
}

/** Tries an event again now, also one that was given up. One that was confirmed is never sent again. */
export async function sendAgain(
  ctx: Context,
  webhook: number,
  id: string,
  publicUrl: string | null,
): Promise<WebhookPost> {
  const { state, event } = await getPost(ctx, webhook, id);
  if (state === 'given') throw wasGiven();
  await ctx.db.transaction(async (transaction) => {
    await lockOpen(transaction, webhook);
    const [row] = await transaction.select().from(webhookPosts).where(eq(webhookPosts.id, id)).for('update');
    if (row?.state === 'given') throw wasGiven();
    await transaction.update(webhookPosts).set({ state: 'waiting' }).where(eq(webhookPosts.id, id));
  });
  return sendOne(ctx, webhook, id, publicUrl, event.type !== 'trial');
}

async function sendOne(
  ctx: Context,
  webhook: number,
  id: string,
  publicUrl: string | null,
  again: boolean,
): Promise<WebhookPost> {
  const post = await claimPost(ctx.db, { now: ctx.now(), busy: [], only: id });
  if (post !== null) await sendPost(ctx, post, { publicUrl, signal: new AbortController().signal, again });
  return getPost(ctx, webhook, id);
}

const wasGiven = (): SlipdriftError =>
  new SlipdriftError('conflict', 'This event was confirmed by its receiver and is never sent again.');
