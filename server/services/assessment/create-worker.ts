import { readWaiting } from '#db/queries/read-waiting.ts';
import type { Context } from '#server/services/context.ts';
import { bringUpToDate } from './bring-up-to-date.ts';

/** Waits for a pause in the deliveries, but not for ever. */
const PAUSE_MS = 2_000;
const LONGEST_WAIT_S = 30;
/** Looks for work that nobody announced: what another process took in, or one that is gone left. */
const LOOK_MS = 1_000;
/** Looks whether a platform is due to be learned again, or the fleet to be ranked. */
const LOOKS_FOR_DUE = 60;

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

export interface WorkerOptions {
  /** may hand the work to other threads */
  runOnce?: RunAssessment;
  /** false where other processes do what is due: a run is begun only where it is asked for */
  looks?: boolean;
}

/**
 * Assessment in the background, off the request path: one run at a time, begun some seconds after the last delivery to any
 * process of the database. A run that fails is logged and tried again.
 */
export function createAssessmentWorker(ctx: Context, options: WorkerOptions = {}): AssessmentWorker {
  const {
    runOnce = ({ learn, signal }) => bringUpToDate(ctx, { learn, stopped: () => signal.aborted }),
    looks = true,
  } = options;
  const stop = new AbortController();
  let timer: NodeJS.Timeout | null = null;
  let firstNudgeMs: number | null = null;
  let running: Promise<unknown> = Promise.resolve();
  let looking: Promise<unknown> = Promise.resolve();
  let begun = 0;
  let held = false;

  const run = (learn: boolean): Promise<number> => {
    firstNudgeMs = null;
    begun++;
    const started = running.then(() => (stop.signal.aborted ? 0 : runOnce({ learn, signal: stop.signal })));
    running = started
      .catch(() => {})
      .finally(() => {
        begun--;
      });
    return started;
  };
  const runQuietly = () => {
    if (held || stop.signal.aborted) return;
    run(false).then(
      (assessed) => {
        if (assessed > 0) ctx.log.info({ assessed }, 'assessed');
      },
      (error: unknown) => ctx.log.error({ err: error }, 'assessment failed; it is tried again'),
    );
  };

  let looksMade = 0;
  let isLooking = false;
  let lastMark = '';
  const look = async () => {
    if (isLooking || held || begun > 0) return;
    isLooking = true;
    try {
      const { free, mark, oldestS } = await readWaiting(ctx.db);
      const hasPaused = mark === lastMark;
      lastMark = mark;
      if (begun > 0) return;
      if (++looksMade % LOOKS_FOR_DUE === 0 || (free > 0 && (hasPaused || oldestS > LONGEST_WAIT_S)))
        runQuietly();
    } catch {
      // Storage is away: whoever needs it says so, and the next look finds it back.
    } finally {
      isLooking = false;
    }
  };
  const looker = looks
    ? setInterval(() => {
        looking = look();
      }, LOOK_MS)
    : null;
  looker?.unref();

  return {
    nudge() {
      if (stop.signal.aborted || !looks) return;
      const nowMs = Date.now();
      firstNudgeMs ??= nowMs;
      if (timer !== null) clearTimeout(timer);
      const wait = Math.max(0, Math.min(PAUSE_MS, firstNudgeMs + LONGEST_WAIT_S * 1000 - nowMs));
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
      if (looker !== null) clearInterval(looker);
      if (timer !== null) clearTimeout(timer);
      await looking;
      await running;
    },
  };
}
