import { Worker } from 'node:worker_threads';
import type { ReplayRequest } from '#server/contract/replay.ts';
import type { RunReplay } from '#server/services/replay/replay-desk.ts';
import { DONE, type FromThread, OF, type ReplayWork } from './messages.ts';

/** Most of what an assessment makes is gone after it: a larger nursery spares a twentieth of the time. */
const YOUNG_MIB = 96;
/** Below 2 GiB, V8 clears away sooner what is gone, for little more time. What is held at once is stretches of 400 vehicles at the most. */
const OLD_MIB = 2_000;

/** Runs each replay in a thread of its own, which takes a second one to help. An end from outside ends both at once. */
export function createReplayRunner(databaseUrl: string): RunReplay {
  return async (request: ReplayRequest, depots, { signal, progress }) => {
    const counts = new SharedArrayBuffer(8);
    const seen = new Int32Array(counts);
    const thread = startThread({ kind: 'whole', databaseUrl, counts, request, depots });
    const look = setInterval(() => progress(Atomics.load(seen, DONE), Atomics.load(seen, OF)), 250);
    const end = () => void thread.worker.terminate();
    signal.addEventListener('abort', end);
    try {
      if (signal.aborted) return null;
      const reply = await thread.reply;
      progress(Atomics.load(seen, DONE), Atomics.load(seen, OF));
      if (reply.kind === 'result') return reply.result;
      throw new Error(reply.kind === 'failed' ? reply.message : 'The replay thread answered for another.');
    } catch (error) {
      if (signal.aborted) return null;
      throw error;
    } finally {
      clearInterval(look);
      signal.removeEventListener('abort', end);
      await thread.worker.terminate();
    }
  };
}

export function startThread(work: ReplayWork): { worker: Worker; reply: Promise<FromThread> } {
  const worker = new Worker(new URL('./thread.mjs', import.meta.url), {
    workerData: work,
    resourceLimits: { maxYoungGenerationSizeMb: YOUNG_MIB, maxOldGenerationSizeMb: OLD_MIB },
  });
  const reply = new Promise<FromThread>((settle, fail) => {
    worker.once('message', settle);
    worker.once('error', fail);
    worker.once('exit', () => fail(new Error('The replay thread ended before its work did.')));
  });
  // It may fail before anybody waits for it.
  reply.catch(() => {});
  worker.unref();
  return { worker, reply };
}
