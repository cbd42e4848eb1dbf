import type { Context } from '#server/services/context.ts';

/** One worker's part of bringing everything up to date that was touched until a moment. */
export interface WorkerRun {
  /** fails once a restore has replaced the storage */
  ctx: Context;
  /** its number among all workers of the database */
  worker: number;
  /** by the clock of the database, as text */
  until: string;
  /** asked between vehicles */
  stopped: () => boolean;
}

/** What a worker does at once: while one part waits for storage, another reckons. */
export const LANES = 2;
/** So long before a worker looks again at what others have in hand. */
export const LOOK_AGAIN_MS = 50;
