import { expect, it } from 'vitest';
import { makeFlatCase, makeWearCase } from '#tests/helpers/make-wear-case.ts';
import { meanPath } from './mean-path.ts';

it('runs as its note says', () => {
  const flatCase = makeFlatCase();
  expect(meanPath([flatCase], 120_000, 150)).toBe(flatCase.baselineRpm);
});

it('weighs the cases', () => {
  const cases = [makeWearCase({ weight: 0.25 }), makeFlatCase({ weight: 0.75 })];
  expect(meanPath(cases, 105_000, 150)).toBeCloseTo(0.25 * 85 + 0.75 * 20, 12);
});

it('is 0 without cases', () => {
  expect(meanPath([], 105_000, 150)).toBe(0);
});
