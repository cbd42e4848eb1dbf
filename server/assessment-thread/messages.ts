/** What the thread is started with. */
export interface ThreadSettings {
  databaseUrl: string;
  /** added to the machine's clock */
  clockShiftMs: number;
}

/** What the process asks of its assessment thread. */
export type ToThread = { kind: 'run'; learn: boolean } | { kind: 'stop' };

/** What the thread answers to each run. */
export type FromThread =
  | { kind: 'assessed'; assessed: number }
  | { kind: 'failed'; message: string; code: string | null };
