import type { FieldError } from '#server/contract/problems.ts';
import type { ProblemCode } from '#server/contract/words.ts';

export type AnalysisKind = 'trend' | 'lives';

/** What the process asks of its analysis thread: the body of one request, as UTF-8. */
export interface ToThread {
  kind: AnalysisKind;
  body: ArrayBuffer;
  /** whether the answer may be packed */
  takesGzip: boolean;
}

/** JSON as UTF-8, packed or not. */
export interface Answer {
  bytes: ArrayBuffer;
  isGzip: boolean;
}

/** The answer, or why there is none; an unforeseen error has no code. */
export type FromThread =
  | { kind: 'answered'; answer: Answer }
  | { kind: 'refused'; code: ProblemCode; detail: string; errors: FieldError[] }
  | { kind: 'failed'; message: string };
