import type { FieldError } from '#server/contract/problems.ts';
import type { Preview, PreviewRequest } from '#server/contract/settings.ts';
import type { ProblemCode } from '#server/contract/words.ts';

/** What the thread is started with. */
export interface ThreadSettings {
  databaseUrl: string;
  /** added to the machine's clock */
  clockShiftMs: number;
}

/** What the process asks of its preview thread: one preview at a time. */
export type ToThread = { kind: 'make'; request: PreviewRequest } | { kind: 'drop' };

/** What the thread answers; a preview that was dropped is null. */
export type FromThread =
  | { kind: 'progress'; done: number; of: number }
  | { kind: 'made'; preview: Preview | null }
  | {
      kind: 'failed';
      code: ProblemCode;
      detail: string;
      errors: FieldError[];
      retryAfterS: number | null;
      message: string;
    };
