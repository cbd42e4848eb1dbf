import { randomBytes } from 'node:crypto';
import { and, eq, isNull } from 'drizzle-orm';
import type { Database } from '#db/client.ts';
import { webhookPosts, webhooks } from '#db/schema/notices.ts';
import type { NewWebhook, Webhook, WebhookChange, WebhookInput } from '#server/contract/webhooks.ts';
import { SlipdriftError } from '#server/errors.ts';
import { noteChanges } from '#server/services/changes/note-changes.ts';
import type { Context } from '#server/services/context.ts';
import { checkAddress } from './check-address.ts';
import { getWebhook } from './list-webhooks.ts';

const ENDED = 'The webhook was ended';

/** Makes a webhook. Its secret is in the answer and nowhere else that anybody can see. */
export async function addWebhook(ctx: Context, input: WebhookInput): Promise<NewWebhook> {
  const secret = randomBytes(32).toString('base64url');
  const { name, grades } = input;
  const url = checkAddress(input.url);
  const id = await ctx.db.transaction(async (transaction) => {
    const [row] = await transaction
      .insert(webhooks)
      .values({ name, url, grades, secret, createdAt: ctx.now(), createdBy: ctx.actor.name })
      .returning({ id: webhooks.id });
    if (row === undefined) throw new Error('an inserted row must come back');
    await noteChanges(transaction, ctx, [
      { action: 'created', subject: 'webhook', subjectId: String(row.id), after: { name, url, grades } },
    ]);
    return row.id;
  });
  return { webhook: await getWebhook(ctx, id), secret };
}

export async function changeWebhook(ctx: Context, id: number, change: WebhookChange): Promise<Webhook> {
  const url = change.url === undefined ? undefined : checkAddress(change.url);
  await ctx.db.transaction(async (transaction) => {
    const row = await lockOpen(transaction, id);
    const before = { name: row.name, url: row.url, grades: row.grades, paused: row.paused };
    const after = {
      name: change.name ?? row.name,
      url: url ?? row.url,
      grades: change.grades ?? row.grades,
      paused: change.paused ?? row.paused,
    };
    await transaction.update(webhooks).set(after).where(eq(webhooks.id, id));
    await noteChanges(transaction, ctx, [
      { action: 'changed', subject: 'webhook', subjectId: String(id), before, after, always: ['name'] },
    ]);
  });
  return getWebhook(ctx, id);
}

/** Ends it for good. What it sent stays to be seen; what waits is not sent; its secret is forgotten. */
export async function endWebhook(ctx: Context, id: number): Promise<Webhook> {
  await ctx.db.transaction(async (transaction) => {
    const { name, url } = await lockOpen(transaction, id);
    await transaction
      .update(webhooks)
      .set({ endedAt: ctx.now(), secret: '' })
      .where(and(eq(webhooks.id, id), isNull(webhooks.endedAt)));
    await transaction
      .update(webhookPosts)
      .set({ state: 'given_up', nextAt: null, lastFault: ENDED })
      .where(and(eq(webhookPosts.webhook, id), eq(webhookPosts.state, 'waiting')));
    await noteChanges(transaction, ctx, [
      { action: 'ended', subject: 'webhook', subjectId: String(id), before: { name, url } },
    ]);
  });
  return getWebhook(ctx, id);
}

export async function lockOpen(transaction: Database, id: number) {
  const [row] = await transaction.select().from(webhooks).where(eq(webhooks.id, id)).for('update');
  if (row === undefined) throw noWebhook(id);
  if (row.endedAt !== null)
    throw new SlipdriftError('conflict', `The webhook ${row.name} was ended; make a new one.`);
  return row;
}

const noWebhook = (id: number): SlipdriftError =>
  new SlipdriftError('not_found', `There is no webhook ${id}. GET /api/webhooks has the list.`);
