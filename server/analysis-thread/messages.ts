import type { FieldError } from '#server/contract/problems.ts';
import type { ProblemCode } from '#server/contract/words.ts';

export type AnalysisKind = 'trend' | 'lives';

/** What the process asks of its analysis thread: the body of one request, as UTF-8. */
export interface ToThread {
  kind: AnalysisKind;
  body: ArrayBuffer;
}

/** The answer as JSON, or why there is none; an unforeseen error has no code. */
export type FromThread =
  | { kind: 'answered'; json: string }
  | { kind: 'refused'; code: ProblemCode; detail: string; errors: FieldError[] }
  | { kind: 'failed'; message: string };
