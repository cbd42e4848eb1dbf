import type { Preview, PreviewReply, PreviewRequest } from '#server/contract/settings.ts';
import { SlipdriftError } from '#server/errors.ts';
import { type Actor, senderOf } from '#server/services/actor.ts';

/** Makes a preview, wherever that is done; null where `signal` ended it. */
export type MakePreview = (
  request: PreviewRequest,
  watch: { signal: AbortSignal; progress: (done: number, of: number) => void },
) => Promise<Preview | null>;

export interface PreviewDesk {
  /** The preview, or how far it is: whoever asks again with the same request gets on with the same work. */
  ask(actor: Actor, request: PreviewRequest, signal: AbortSignal): Promise<PreviewReply>;
  stop(): void;
}

interface Job {
  made: Promise<Preview | null>;
  done: number;
  of: number;
  end: AbortController;
  forget: NodeJS.Timeout | undefined;
}

/** Shorter than a proxy's patience; long enough that most previews need one answer. */
const WAIT_MS = 2_000;
/** Nobody asks again after so long: the form has changed, or was left. */
const ABANDONED_MS = 5_000;
const MOST_JOBS = 16;

export function createPreviewDesk(
  make: MakePreview,
  { waitMs = WAIT_MS, abandonedMs = ABANDONED_MS } = {},
): PreviewDesk {
  const jobs = new Map<string, Job>();

  const end = (key: string) => {
    const job = jobs.get(key);
    clearTimeout(job?.forget);
    job?.end.abort();
    jobs.delete(key);
  };

  function begin(key: string, request: PreviewRequest): Job {
    if (jobs.size >= MOST_JOBS)
      throw new SlipdriftError(
        'busy',
        'Too many previews are in work. Nothing was computed; ask again soon.',
        {
          retryAfterS: 5,
        },
      );
    const abort = new AbortController();
    const job: Job = { made: Promise.resolve(null), done: 0, of: 0, end: abort, forget: undefined };
    job.made = make(request, {
      signal: abort.signal,
      progress: (done, of) => Object.assign(job, { done, of }),
    });
    job.made.catch(() => {});
    jobs.set(key, job);
    return job;
  }

  return {
    async ask(actor, request, signal) {
      const key = `${senderOf(actor)} ${JSON.stringify(request)}`;
      const job = jobs.get(key) ?? begin(key, request);
      clearTimeout(job.forget);
      const leave = () => end(key);
      signal.addEventListener('abort', leave);
      try {
        const preview = await Promise.race([job.made, after(waitMs)]);
        if (preview === null) {
          job.forget = setTimeout(leave, abandonedMs);
          job.forget.unref();
        } else end(key);
        return { done: job.done, of: job.of, preview };
      } catch (error) {
        end(key);
        throw error;
      } finally {
        signal.removeEventListener('abort', leave);
      }
    },
    stop() {
      for (const key of [...jobs.keys()]) end(key);
    },
  };
}

const after = (ms: number): Promise<null> =>
  new Promise((settle) => {
    setTimeout(() => settle(null), ms);
  });
