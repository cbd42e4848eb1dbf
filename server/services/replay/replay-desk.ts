import { and, eq } from 'drizzle-orm';
import { claimReplay, noteReplayAlive, releaseReplay } from '#db/queries/claim-replay.ts';
import { replays } from '#db/schema/life-data.ts';
import { type ReplayRequest, type ReplayResult, replayRequest } from '#server/contract/replay.ts';
import { toSlipdriftError } from '#server/errors.ts';
import type { Context } from '#server/services/context.ts';

/** Runs a replay, wherever that is done; null where `signal` ended it. */
export type RunReplay = (
  request: ReplayRequest,
  depots: readonly string[] | null,
  watch: { signal: AbortSignal; progress: (done: number, of: number) => void },
) => Promise<ReplayResult | null>;

export interface ReplayDesk {
  /** says that a replay waits, or that one was cancelled */
  nudge(): void;
  /** what is being run is begun again by whoever looks next */
  stop(): Promise<void>;
}

/** Looks for what another program left, or was asked for there. */
const LOOK_MS = 10_000;
const ALIVE_MS = 500;
const GIVEN_UP =
  'The replay broke off. The program ended twice while it was run, so it was not begun a third time: take fewer days or vehicles, and let an admin look into the log of the program.';

/** Runs the replays that wait in the table, one at a time over all programs of a database. */
export function createReplayDesk(ctx: Context, run: RunReplay): ReplayDesk {
  let stopped = false;
  let working: Promise<void> | null = null;
  let isWanted = false;
  let check: (() => void) | null = null;
  const halt = new AbortController();

  function nudge(): void {
    check?.();
    isWanted = true;
    if (working !== null || stopped) return;
    working = work()
      .catch((error: unknown) => ctx.log.warn({ err: error }, 'replays were put off'))
      .finally(() => {
        working = null;
        if (isWanted && !stopped) setTimeout(nudge, 0).unref();
      });
  }

  async function work(): Promise<void> {
    while (!stopped) {
      isWanted = false;
      const startedAt = ctx.now();
      const claimed = await claimReplay(ctx.db, startedAt, GIVEN_UP);
      if (claimed === null) return;
      await runOne(claimed.id, startedAt, replayRequest.parse(claimed.request), claimed.depots);
    }
  }

  async function runOne(
    id: number,
    startedAt: Date,
    request: ReplayRequest,
    depots: readonly string[] | null,
  ): Promise<void> {
    const end = new AbortController();
    const counts = { done: 0, of: 0 };
    const alive = () => {
      noteReplayAlive(ctx.db, id, startedAt, counts).then(
        (isOurs) => {
          if (!isOurs) end.abort();
        },
        (error: unknown) => ctx.log.warn({ err: error, replay: id }, 'progress of a replay was not noted'),
      );
    };
    const timer = setInterval(alive, ALIVE_MS);
    timer.unref();
    check = alive;
    const signal = AbortSignal.any([end.signal, halt.signal]);
    const own = and(eq(replays.id, id), eq(replays.state, 'running'), eq(replays.startedAt, startedAt));
    try {
      const result = await run(request, depots, {
        signal,
        progress: (done, of) => Object.assign(counts, { done, of }),
      });
      if (result !== null)
        await ctx.db
          .update(replays)
          .set({ state: 'done', endedAt: ctx.now(), result, ...counts })
          .where(own);
      else if (halt.signal.aborted) await releaseReplay(ctx.db, id, startedAt);
    } catch (error) {
      ctx.log.error({ err: error, replay: id }, 'a replay failed');
      const { code, message } = toSlipdriftError(error);
      const told = code === 'internal' ? 'This was not foreseen; the log of the program says more.' : message;
      await ctx.db
        .update(replays)
        .set({ state: 'failed', endedAt: ctx.now(), error: `The replay broke off. ${told}`, ...counts })
        .where(own);
    } finally {
      clearInterval(timer);
      check = null;
    }
  }

  const look = setInterval(nudge, LOOK_MS);
  look.unref();
  nudge();
  return {
    nudge,
    async stop() {
      stopped = true;
      clearInterval(look);
      halt.abort();
      await working;
    },
  };
}
