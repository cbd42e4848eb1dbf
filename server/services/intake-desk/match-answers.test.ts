import { expect, it } from 'vitest';
import { matchAnswers } from './match-answers.ts';

const at = (text: string) => ({ at: new Date(text) });

it('gives a step that has moved a little its answer, and one further off none', () => {
  const steps = [at('2026-03-04T12:00:00Z'), at('2026-05-01T12:00:00Z')];
  const answers = [at('2026-03-04T09:30:00Z'), at('2026-05-02T12:00:01Z')];
  const matched = matchAnswers(steps, answers);
  expect(steps.map((step) => matched.get(step))).toEqual([answers[0], undefined]);
});

it('gives an answer to the nearest of two steps and to no other', () => {
  const steps = [at('2026-03-04T06:00:00Z'), at('2026-03-04T18:00:00Z')];
  const answers = [at('2026-03-04T17:00:00Z')];
  const matched = matchAnswers(steps, answers);
  expect(steps.map((step) => matched.has(step))).toEqual([false, true]);
});

it('keeps two answers with their two steps, though one lies between both', () => {
  const steps = [at('2026-03-04T06:00:00Z'), at('2026-03-04T10:00:00Z')];
  const answers = [at('2026-03-04T07:30:00Z'), at('2026-03-04T10:10:00Z')];
  const matched = matchAnswers(steps, answers);
  expect(steps.map((step) => matched.get(step))).toEqual(answers);
});
