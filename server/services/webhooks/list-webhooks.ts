import { and, count, desc, eq } from 'drizzle-orm';
import { rawClient } from '#db/client.ts';
import { webhookPosts } from '#db/schema/notices.ts';
import type {
  ToldGrade,
  Webhook,
  WebhookEvent,
  WebhookPost,
  WebhookPosts,
  WebhookPostsQuery,
} from '#server/contract/webhooks.ts';
import { SlipdriftError } from '#server/errors.ts';
import type { Context } from '#server/services/context.ts';
import { warnOf } from './check-address.ts';

interface Row {
  id: number;
  name: string;
  url: string;
  grades: ToldGrade[];
  paused: boolean;
  createdAt: Date;
  createdBy: string;
  endedAt: Date | null;
  waiting: number;
  given: number;
  givenUp: number;
  lastAt: Date | null;
  lastStatus: number | null;
  lastFault: string | null;
}

/** Webhooks with how it went last; those in use first, newest first. */
export async function listWebhooks(ctx: Context, only: number | null = null): Promise<Webhook[]> {
  const client = rawClient(ctx.db);
  const rows = await client<Row[]>`
    select w.id, w.name, w.url, w.grades, w.paused, w.created_at as "createdAt", w.created_by as "createdBy",
      w.ended_at as "endedAt", n.waiting, n.given, n.given_up as "givenUp",
      l.last_at as "lastAt", l.last_status as "lastStatus", l.last_fault as "lastFault"
    from webhooks w
    cross join lateral (
      select count(*) filter (where state = 'waiting') as waiting, count(*) filter (where state = 'given') as given,
        count(*) filter (where state = 'given_up') as given_up
      from webhook_posts where webhook = w.id) n
    left join lateral (
      select last_at, last_status, last_fault from webhook_posts
      where webhook = w.id and last_at is not null order by last_at desc limit 1) l on true
    where ${only}::int is null or w.id = ${only}
    order by w.ended_at is not null, w.created_at desc, w.id desc`;
  return rows.map((row) => ({
    id: row.id,
    name: row.name,
    url: row.url,
    grades: row.grades,
    state: row.endedAt !== null ? 'ended' : row.paused ? 'paused' : 'active',
    warning: warnOf(row.url),
    created_at: row.createdAt.toISOString(),
    created_by: row.createdBy,
    ended_at: row.endedAt?.toISOString() ?? null,
    waiting: row.waiting,
    given: row.given,
    given_up: row.givenUp,
    last_at: row.lastAt?.toISOString() ?? null,
    last_status: row.lastStatus,
    last_fault: row.lastFault,
  }));
}

export async function getWebhook(ctx: Context, id: number): Promise<Webhook> {
  const [found] = await listWebhooks(ctx, id);
  if (found === undefined)
    throw new SlipdriftError('not_found', `There is no webhook ${id}. GET /api/webhooks has the list.`);
  return found;
}

export async function listPosts(
  ctx: Context,
  id: number,
  { limit, offset }: WebhookPostsQuery,
): Promise<WebhookPosts> {
  await getWebhook(ctx, id);
  const mine = eq(webhookPosts.webhook, id);
  const [[total], rows] = await Promise.all([
    ctx.db.select({ n: count() }).from(webhookPosts).where(mine),
    ctx.db
      .select()
      .from(webhookPosts)
      .where(mine)
      .orderBy(desc(webhookPosts.at), desc(webhookPosts.id))
      .limit(limit)
      .offset(offset),
  ]);
  return { total: total?.n ?? 0, rows: rows.map(toPost) };
}

export async function getPost(ctx: Context, webhook: number, id: string): Promise<WebhookPost> {
  const [row] = await ctx.db
    .select()
    .from(webhookPosts)
    .where(and(eq(webhookPosts.webhook, webhook), eq(webhookPosts.id, id)));
  if (row === undefined) throw new SlipdriftError('not_found', `The webhook ${webhook} has no event ${id}.`);
  return toPost(row);
}

const toPost = (row: typeof webhookPosts.$inferSelect): WebhookPost => ({
  id: row.id,
  event: row.body as WebhookEvent,
  state: row.state,
  tries: row.tries,
  next_at: row.nextAt?.toISOString() ?? null,
  last_at: row.lastAt?.toISOString() ?? null,
  last_status: row.lastStatus,
  last_fault: row.lastFault,
});
