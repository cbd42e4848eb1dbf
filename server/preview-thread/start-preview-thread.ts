import { Worker } from 'node:worker_threads';
import type { Preview } from '#server/contract/settings.ts';
import { SlipdriftError } from '#server/errors.ts';
import type { MakePreview } from '#server/services/settings/preview-desk.ts';
import type { FromThread, ThreadSettings, ToThread } from './messages.ts';

export interface PreviewThread {
  /** One at a time in the order they are asked for; one that nobody wants any more is passed over. */
  make: MakePreview;
  stop(): Promise<void>;
}

interface Job {
  message: ToThread;
  watch: Parameters<MakePreview>[1];
  settle: (preview: Preview | null) => void;
  fail: (error: Error) => void;
}

const IDLE_MS = 120_000;

/** A thread that starts with the first preview, again after one that it died of, and ends when idle. */
export function startPreviewThread(settings: ThreadSettings): PreviewThread {
  const waiting: Job[] = [];
  let running: Job | null = null;
  let worker: Worker | null = null;
  let idle: NodeJS.Timeout | undefined;

  const begin = (): Worker => {
    const thread = new Worker(new URL('./thread.mjs', import.meta.url), { workerData: settings });
    const lose = (error: Error) => {
      if (worker !== thread) return;
      worker = null;
      end((job) => job.fail(error));
    };
    thread.on('message', (reply: FromThread) => {
      if (reply.kind === 'progress') running?.watch.progress(reply.done, reply.of);
      else end((job) => pass(reply, job));
    });
    thread.on('error', lose);
    thread.on('exit', () => lose(new Error('The preview thread ended before its work did.')));
    thread.unref();
    return thread;
  };

  const drop = () => send({ kind: 'drop' });

  function end(tell: (job: Job) => void): void {
    const job = running;
    running = null;
    job?.watch.signal.removeEventListener('abort', drop);
    if (job !== null) tell(job);
    next();
  }

  function next(): void {
    if (running !== null) return;
    clearTimeout(idle);
    const job = waiting.shift();
    if (job === undefined) {
      idle = setTimeout(() => void rest(), IDLE_MS);
      idle.unref();
      return;
    }
    if (job.watch.signal.aborted) {
      job.settle(null);
      next();
      return;
    }
    running = job;
    job.watch.signal.addEventListener('abort', drop);
    worker ??= begin();
    send(job.message);
  }

  const send = (message: ToThread) => worker?.postMessage(message);

  async function rest(): Promise<void> {
    const thread = worker;
    worker = null;
    clearTimeout(idle);
    await thread?.terminate();
  }

  return {
    make: (request, watch) =>
      new Promise((settle, fail) => {
        waiting.push({ message: { kind: 'make', request }, watch, settle, fail });
        next();
      }),
    stop: rest,
  };
}

function pass(reply: Exclude<FromThread, { kind: 'progress' }>, { settle, fail }: Job): void {
  if (reply.kind === 'made') {
    settle(reply.preview);
    return;
  }
  const { code, detail, errors, retryAfterS, message } = reply;
  fail(
    new SlipdriftError(code, detail, {
      errors,
      cause: new Error(message),
      ...(retryAfterS === null ? {} : { retryAfterS }),
    }),
  );
}
