import { once } from 'node:events';
import { Worker } from 'node:worker_threads';
import { SlipdriftError } from '#server/errors.ts';
import type { FromThread, ThreadSettings, ToThread } from './messages.ts';

export interface AssessmentThread {
  /** Its part of all that was touched until then; answers how many vehicles it assessed. */
  run(until: string, signal: AbortSignal): Promise<number>;
  /** Lets the vehicle in hand end, for at most `seconds`; what was begun stays noted and is done at the next start. */
  stop(seconds: number): Promise<void>;
}

/** Stretches of a batch are many small objects, and gone soon: here they are gone before they are moved to the old ones. */
const YOUNG_MB = 96;

/** Starts a thread for the assessment on its first run, and again after one that died; runs come one at a time. */
export function startAssessmentThread(settings: ThreadSettings): AssessmentThread {
  let worker: Worker | null = null;

  const begin = (): Worker => {
    const thread = new Worker(new URL('./thread.mjs', import.meta.url), {
      workerData: settings,
      resourceLimits: { maxYoungGenerationSizeMb: YOUNG_MB },
    });
    thread.unref();
    thread.once('exit', () => {
      if (worker === thread) worker = null;
    });
    return thread;
  };

  return {
    run(until, signal) {
      worker ??= begin();
      const thread = worker;
      return new Promise<number>((settle, fail) => {
        const stop = () => send(thread, { kind: 'stop' });
        const end = (then: () => void) => {
          signal.removeEventListener('abort', stop);
          thread.off('message', onMessage).off('error', onError).off('exit', onExit);
          then();
        };
        const onMessage = (reply: FromThread) =>
          end(() => (reply.kind === 'assessed' ? settle(reply.assessed) : fail(toError(reply))));
        const onError = (error: Error) => end(() => fail(error));
        const onExit = () => end(() => fail(new Error('The assessment thread ended before its run did.')));
        thread.on('message', onMessage).on('error', onError).on('exit', onExit);
        signal.addEventListener('abort', stop);
        send(thread, { kind: 'run', until });
      });
    },
    async stop(seconds) {
      if (worker === null) return;
      const thread = worker;
      const ended = once(thread, 'exit');
      send(thread, { kind: 'stop' });
      const late = setTimeout(() => thread.terminate(), seconds * 1000);
      await ended;
      clearTimeout(late);
    },
  };
}

function toError(reply: Extract<FromThread, { kind: 'failed' }>): SlipdriftError {
  return new SlipdriftError(reply.code, reply.detail, {
    cause: new Error(reply.message),
    ...(reply.retryAfterS === null ? {} : { retryAfterS: reply.retryAfterS }),
  });
}

function send(worker: Worker, message: ToThread): void {
  worker.postMessage(message);
}
