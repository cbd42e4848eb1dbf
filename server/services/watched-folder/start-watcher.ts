import { setTimeout as sleep } from 'node:timers/promises';
import { keepLock } from '#db/keep-lock.ts';
import type { Context } from '#server/services/context.ts';
import { createLook, type WatchOptions } from './look-at-folder.ts';

/** One program of a database takes files in; another takes over where that one goes. */
const FOLDER_LOCK = 730_511_621;
const LOOK_MS = 3000;
const STILL_MS = 5000;
const FINISH_MS = 5000;

export interface Watcher {
  /** Breaks off the file in hand: it is gone on with after the next start. */
  stop(): Promise<void>;
}

/** Looks every few seconds what lies in the folder: no system tells of changes on a network share. */
export function startWatcher(ctx: Context, options: Omit<WatchOptions, 'stillMs'>): Watcher {
  const stopping = new AbortController();
  const watch = async (signal: AbortSignal) => {
    const look = createLook(ctx, { ...options, stillMs: STILL_MS });
    let isTold = false;
    ctx.log.info({ folder: options.folder }, 'watched folder: files are taken in');
    while (!signal.aborted) {
      try {
        await look(signal);
        isTold = false;
      } catch (error) {
        if (!isTold && !signal.aborted)
          ctx.log.warn({ err: error }, 'watched folder: it cannot be looked at; it is tried again');
        isTold = true;
      }
      await sleep(LOOK_MS, undefined, { signal, ref: false }).catch(() => {});
    }
  };
  const running = keepLock(ctx.db, FOLDER_LOCK, stopping.signal, watch, (error) =>
    ctx.log.warn({ err: error }, 'watched folder: looking was interrupted; it is taken up again'),
  );
  return {
    async stop() {
      stopping.abort();
      await Promise.race([running, sleep(FINISH_MS, undefined, { ref: false })]);
    },
  };
}
