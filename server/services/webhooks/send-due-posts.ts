import { claimPost } from '#db/queries/webhook-posts.ts';
import type { Context } from '#server/services/context.ts';
import { type Sending, sendPost } from './send-post.ts';

/** Receivers that are waited for at a time: a slow one must not keep the others from what is theirs. */
const LANES = 4;

/** Sends everything that is due, one at a time to each receiver. Answers how many were confirmed. */
export async function sendDuePosts(ctx: Context, sending: Sending): Promise<number> {
  const busy = new Set<number>();
  let given = 0;
  const work = async () => {
    while (!sending.signal.aborted) {
      const post = await claimPost(ctx.db, { now: ctx.now(), busy: [...busy] });
      if (post === null) return;
      busy.add(post.webhook);
      try {
        const { fault } = await sendPost(ctx, post, sending);
        if (fault === null) given += 1;
      } finally {
        busy.delete(post.webhook);
      }
    }
  };
  await Promise.all(Array.from({ length: LANES }, work));
  return given;
}
