import { Worker } from 'node:worker_threads';
import { SlipdriftError } from '#server/errors.ts';
import type { SolveDepots } from '#server/services/plan/solve-depots.ts';
import type { FromThread, ToThread } from './messages.ts';

export interface PlanningThread {
  /** Solves depots; a request that ends while it waits is dropped. A solver that died is told of, and begun anew. */
  run(signal: AbortSignal, onFault: (fault: string) => void): SolveDepots;
}

interface Job {
  message: ToThread;
  signal: AbortSignal;
  settle: (reply: FromThread) => void;
  fail: (error: Error) => void;
}

const MOST_HEAP_MIB = 512;
const IDLE_MS = 120_000;
/** Plans that wait for their turn: each takes up to ten seconds. */
const MOST_WAITING = 3;

/**
 * A thread for plans, one at a time in the order they come. It starts with the first, again after one that it died of, and
 * ends by itself when idle: nothing has to stop it, and it keeps no process alive.
 */
export function startPlanningThread(): PlanningThread {
  const waiting: Job[] = [];
  let running: Job | null = null;
  let worker: Worker | null = null;
  let idle: NodeJS.Timeout | undefined;

  const begin = (): Worker => {
    const thread = new Worker(new URL('./thread.mjs', import.meta.url), {
      resourceLimits: { maxOldGenerationSizeMb: MOST_HEAP_MIB },
    });
    const lose = (error: Error) => {
      if (worker !== thread) return;
      worker = null;
      end((job) => job.fail(error));
    };
    thread.on('message', (reply: FromThread) => {
      if (reply.fault !== null && worker === thread) rest();
      end((job) => job.settle(reply));
    });
    thread.on('error', lose);
    thread.on('exit', () => lose(new Error('The planning thread ended before its work did.')));
    thread.unref();
    return thread;
  };

  function end(tell: (job: Job) => void): void {
    const job = running;
    running = null;
    if (job !== null) tell(job);
    next();
  }

  function next(): void {
    if (running !== null) return;
    clearTimeout(idle);
    const job = waiting.shift();
    if (job === undefined) {
      idle = setTimeout(rest, IDLE_MS);
      idle.unref();
      return;
    }
    if (job.signal.aborted) {
      job.fail(new SlipdriftError('busy', 'The request ended while it waited. Nothing was planned.'));
      next();
      return;
    }
    running = job;
    worker ??= begin();
    worker.postMessage(job.message);
  }

  function rest(): void {
    const thread = worker;
    worker = null;
    void thread?.terminate();
  }

  return {
    run: (signal, onFault) => (questions) =>
      new Promise((settle, fail) => {
        if (waiting.length >= MOST_WAITING)
          throw new SlipdriftError(
            'busy',
            `${MOST_WAITING} plans wait for their turn already, and this one was not begun. Ask again in half a minute.`,
            { retryAfterS: 30 },
          );
        waiting.push({
          message: { questions },
          signal,
          settle: ({ solved, fault }) => {
            if (fault !== null) onFault(fault);
            settle(solved);
          },
          fail,
        });
        next();
      }),
  };
}
