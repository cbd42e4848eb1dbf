import { setTimeout as sleep } from 'node:timers/promises';
import type { Context } from '#server/services/context.ts';
import { type DigestPost, sendDueDigests } from './send-due-digests.ts';

/** A minute: what somebody asked for on a Monday is there before they wonder. */
const LOOK_MS = 60_000;

export interface RunningPost {
  /** Breaks off what is being sent; it is taken up again after the next start. */
  stop(): Promise<void>;
}

/** Looks every minute whether digests are due, and sends them. */
export function startDigestPost(ctx: Context, post: DigestPost): RunningPost {
  const stopping = new AbortController();
  const running = run(ctx, post, stopping.signal);
  return {
    async stop() {
      stopping.abort();
      await running;
    },
  };
}

async function run(ctx: Context, post: DigestPost, signal: AbortSignal): Promise<void> {
  while (!signal.aborted) {
    try {
      await sendDueDigests(ctx, post, signal);
    } catch (error) {
      ctx.log.warn({ err: error }, 'digests are tried again in a minute');
    }
    await sleep(LOOK_MS, undefined, { signal, ref: false }).catch(() => {});
  }
}
