import { and, lt, ne } from 'drizzle-orm';
import { webhookPosts } from '#db/schema/notices.ts';
import type { Context } from '#server/services/context.ts';

/** The log of what was told goes back a year and a month. */
const KEPT_MS = 395 * 86_400_000;

/** Takes old lines off the log of webhooks, and answers how many; what still waits stays. */
export async function forgetPosts({ db, now }: Pick<Context, 'db' | 'now'>): Promise<number> {
  const before = new Date(now().getTime() - KEPT_MS);
  const { count } = await db
    .delete(webhookPosts)
    .where(and(ne(webhookPosts.state, 'waiting'), lt(webhookPosts.at, before)));
  return count;
}
