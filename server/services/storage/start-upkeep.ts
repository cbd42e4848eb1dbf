import { setTimeout as sleep } from 'node:timers/promises';
import { listUpkeepRuns } from '#db/queries/upkeep/upkeep-runs.ts';
import type { Context } from '#server/services/context.ts';
import { nextUpkeepAt } from './next-upkeep-at.ts';
import { runUpkeep } from './run-upkeep.ts';
import type { UpkeepLimits } from './upkeep-limits.ts';

const LOOK_MS = 60_000;

export interface RunningUpkeep {
  /** Breaks off what is being done; the next run does it. */
  stop(): Promise<void>;
}

/** Does the upkeep of storage now and daily, as one of all processes on the database; an hour after one that failed. */
export function startUpkeep(ctx: Context, limits: UpkeepLimits): RunningUpkeep {
  const stopping = new AbortController();
  const { signal } = stopping;
  let isTold = false;
  let isFirst = true;
  const look = async () => {
    if (!isFirst) {
      const [last] = await listUpkeepRuns(ctx.db, 1);
      if (last !== undefined && nextUpkeepAt(last) > ctx.now()) return;
    }
    await runUpkeep(ctx, limits, signal);
    isFirst = false;
  };
  const run = async () => {
    while (!signal.aborted) {
      try {
        await look();
        isTold = false;
      } catch (error) {
        if (!isTold && !signal.aborted) ctx.log.warn({ err: error }, 'the upkeep of storage waits');
        isTold = true;
      }
      await sleep(LOOK_MS, undefined, { signal, ref: false }).catch(() => {});
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
