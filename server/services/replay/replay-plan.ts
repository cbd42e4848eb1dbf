import type { platforms } from '#db/schema/fleet.ts';
import type { ReplayRequest } from '#server/contract/replay.ts';

export const DAY_MS = 86_400_000;
/** A reading that arrives later than this after its moment is history that was loaded. */
export const LATE_DAYS = 30;
/** What the vehicles of a platform have in common is learned again after so many days, */
export const LEARN_DAYS = 7;
/** or once readings span so much more of their time: a history that is short yet. As `find-due-platforms.ts` does. */
export const LEARN_MORE = 1.1;

type PlatformRow = typeof platforms.$inferSelect;

/** What is to be run again, as a thread is told. */
export interface ReplayPlan {
  /** beginning of the first day, and the end of each, ms since 1970 */
  fromMs: number;
  dayEndMs: number[];
  request: ReplayRequest;
  groups: PlatformGroup[];
}

/** The vehicles of one platform. */
export interface PlatformGroup {
  /** with the limit to try; null for vehicles without one */
  platform: PlatformRow | null;
  /** all that have readings: what they have in common is learned from them */
  members: number[];
  /** those of them that are looked at */
  asked: number[];
}

export function listDayEnds(from: string, to: string): number[] {
  const firstMs = Date.parse(from);
  const days = Math.round((Date.parse(to) - firstMs) / DAY_MS) + 1;
  return Array.from({ length: days }, (_, i) => firstMs + (i + 1) * DAY_MS);
}

export const dayOf = (ms: number): string => new Date(ms).toISOString().slice(0, 10);
/** The day that ends at a moment. */
export const dayEndedAt = (endMs: number): string => dayOf(endMs - 1);
