import type { Context } from '#server/services/context.ts';
import { bringUpToDate } from './bring-up-to-date.ts';

/** Waits for a pause in the deliveries, but not for ever. */
const PAUSE_MS = 2_000;
const LONGEST_WAIT_MS = 30_000;
/** Looks for work that nobody announced: another process's deliveries, or what a crash left. */
const LOOK_MS = 60_000;

export interface AssessmentWorker {
  /** says that there are new readings */
  nudge(): void;
  /** settles when nothing is left to assess */
  idle(): Promise<void>;
  /** begins no run by itself until the answer is called */
  hold(): () => void;
  /** assesses everything now, platforms included, and answers how many vehicles */
  assessNow(): Promise<number>;
  /** finishes the vehicle in hand and stays stopped */
  stop(): Promise<void>;
}

/** One run: brings everything up to date and answers how many vehicles were assessed. */
export type RunAssessment = (options: { learn: boolean; signal: AbortSignal }) => Promise<number>;

/**
 * Assessment in the background, off the request path: one run at a time, begun some seconds after the last delivery.
 * A run that fails is logged and tried again at the next look. `runOnce` may hand the work to another thread.
 */
export function createAssessmentWorker(
  ctx: Context,
  runOnce: RunAssessment = ({ learn, signal }) =>
    bringUpToDate(ctx, { learn, stopped: () => signal.aborted }),
): AssessmentWorker {
  const stop = new AbortController();
  let timer: NodeJS.Timeout | null = null;
  let firstNudgeAt: number | null = null;
  let running: Promise<unknown> = Promise.resolve();
  let held = false;

  const run = (learn: boolean): Promise<number> => {
    firstNudgeAt = null;
    const started = running.then(() => (stop.signal.aborted ? 0 : runOnce({ learn, signal: stop.signal })));
    running = started.catch(() => {});
    return started;
  };
  const runQuietly = () => {
    if (held) return;
    run(false).then(
      (assessed) => {
        if (assessed > 0) ctx.log.info({ assessed }, 'assessed');
      },
      (error: unknown) => ctx.log.error({ err: error }, 'assessment failed; it is tried again'),
    );
  };
  const look = setInterval(runQuietly, LOOK_MS);
  look.unref();

  return {
    nudge() {
      if (stop.signal.aborted) return;
      const now = Date.now();
      firstNudgeAt ??= now;
      if (timer !== null) clearTimeout(timer);
      const wait = Math.max(0, Math.min(PAUSE_MS, firstNudgeAt + LONGEST_WAIT_MS - now));
      timer = setTimeout(runQuietly, wait);
      timer.unref();
    },
    hold() {
      held = true;
      return () => {
        held = false;
      };
    },
    async idle() {
      await run(false);
    },
    assessNow: () => run(true),
    async stop() {
      stop.abort();
      clearInterval(look);
      if (timer !== null) clearTimeout(timer);
      await running;
    },
  };
}
