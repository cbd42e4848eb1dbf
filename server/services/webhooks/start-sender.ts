import { setTimeout as sleep } from 'node:timers/promises';
import type { Context } from '#server/services/context.ts';
import { sendDuePosts } from './send-due-posts.ts';

const LOOK_MS = 5000;

export interface RunningSender {
  /** Breaks off what is being sent; it is taken up again, as the same event. */
  stop(): Promise<void>;
}

/** Looks every few seconds whether something is to be sent, and sends it. */
export function startSender(ctx: Context, publicUrl: string | null, lookMs = LOOK_MS): RunningSender {
  const stopping = new AbortController();
  const { signal } = stopping;
  let isTold = false;
  const run = async () => {
    while (!signal.aborted) {
      try {
        await sendDuePosts(ctx, { publicUrl, signal });
        isTold = false;
      } catch (error) {
        if (!isTold) ctx.log.warn({ err: error }, 'webhooks wait: what is due is looked for again');
        isTold = true;
      }
      await sleep(lookMs, undefined, { signal, ref: false }).catch(() => {});
    }
  };
  const running = run();
  return {
    async stop() {
      stopping.abort();
      await running;
    },
  };
}
