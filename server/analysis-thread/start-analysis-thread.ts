import { Worker } from 'node:worker_threads';
import { SlipdriftError } from '#server/errors.ts';
import type { FromThread, ToThread } from './messages.ts';

export interface AnalysisThread {
  /** The answer to a body as JSON; a request that ends while it waits is dropped. */
  run(body: ArrayBuffer, signal: AbortSignal): Promise<string>;
}

interface Job {
  body: ArrayBuffer;
  signal: AbortSignal;
  settle: (json: string) => void;
  fail: (error: Error) => void;
}

/** An analysis of 100,000 points holds some 150 MiB for a moment. */
const MOST_HEAP_MIB = 512;
const IDLE_MS = 120_000;

/**
 * A thread for analyses, one at a time in the order they come. It starts with the first, again after one that it died
 * of, and ends by itself when idle: nothing has to stop it, and it keeps no process alive.
 */
export function startAnalysisThread(): AnalysisThread {
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
    thread.on('message', (reply: FromThread) => end((job) => pass(reply, job)));
    thread.on('error', lose);
    thread.on('exit', () => lose(new Error('The analysis thread ended before its work did.')));
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
      job.fail(new SlipdriftError('busy', 'The request ended while it waited. Nothing was computed.'));
      next();
      return;
    }
    running = job;
    worker ??= begin();
    const message: ToThread = { body: job.body };
    worker.postMessage(message, [job.body]);
  }

  function rest(): void {
    const thread = worker;
    worker = null;
    void thread?.terminate();
  }

  return {
    run: (body, signal) =>
      new Promise((settle, fail) => {
        waiting.push({ body, signal, settle, fail });
        next();
      }),
  };
}

function pass(reply: FromThread, { settle, fail }: Job): void {
  if (reply.kind === 'answered') settle(reply.json);
  else if (reply.kind === 'refused')
    fail(new SlipdriftError(reply.code, reply.detail, { errors: reply.errors }));
  else fail(new Error(reply.message));
}
