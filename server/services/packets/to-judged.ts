import type { Judgement, StepQuestion } from '#server/contract/test-steps.ts';
import type { Asked, Judged, LookAt, Result } from '#server/engine/diagnosis/diagnosis-model.ts';
import { lookWords } from './look-words.ts';
import { questionWords } from './question-words.ts';

export type JudgedFinding =
  | { kind: 'judged'; judgement: Judgement }
  | { kind: 'asked'; questions: StepQuestion[] };

/** A judgement of the engine with its words; `looks` are words for what this step says more exactly. */
export function toJudged(
  { result, verdict, lookNext }: Judged<Result, unknown>,
  words: string,
  rule: string,
  looks: Partial<Record<LookAt, string>> = {},
): JudgedFinding {
  const look_next = lookNext.map((look) => looks[look] ?? lookWords[look]);
  return { kind: 'judged', judgement: { result, verdict, words, rule, look_next } };
}

export const toAsked = ({ asks }: Asked): JudgedFinding => ({
  kind: 'asked',
  questions: asks.map(questionWords),
});
