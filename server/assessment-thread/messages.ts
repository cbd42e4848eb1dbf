import type { ProblemCode } from '#server/contract/words.ts';

/** What the thread is started with. */
export interface ThreadSettings {
  databaseUrl: string;
  /** added to the machine's clock */
  clockShiftMs: number;
}

/** What the process asks of its assessment thread: its part of all that was touched until a moment. */
export type ToThread = { kind: 'run'; until: string } | { kind: 'stop' };

/** What the thread answers to each run. */
export type FromThread =
  | { kind: 'assessed'; assessed: number }
  | { kind: 'failed'; code: ProblemCode; detail: string; retryAfterS: number | null; message: string };
