import type { ReplayRequest, ReplayResult } from '#server/contract/replay.ts';
import type { ReplayPlan } from '#server/services/replay/replay-plan.ts';
import type { ReplayedVehicle } from '#server/services/replay/replayed-vehicle.ts';

/** Places in the counts that threads and process share: vehicle days done, and in all. */
export const DONE = 0;
export const OF = 1;

/** What a thread is started with: a whole replay, or the part of one that another thread gives away. */
export type ReplayWork = {
  databaseUrl: string;
  counts: SharedArrayBuffer;
} & (
  | { kind: 'whole'; request: ReplayRequest; depots: readonly string[] | null }
  | { kind: 'part'; plan: ReplayPlan }
);

/** What it answers, once. */
export type FromThread =
  | { kind: 'result'; result: ReplayResult }
  | { kind: 'part'; vehicles: ReplayedVehicle[] }
  | { kind: 'failed'; detail: string; message: string };
