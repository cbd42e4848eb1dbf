import { expect, it } from 'vitest';
import { makeFlatCase, makeStepCase, makeWearCase } from '#tests/helpers/make-wear-case.ts';
import { wayLeft } from './way-left.ts';

it('runs as its note says', () => {
  const linear = makeWearCase();
  expect(wayLeft(linear, linear.onsetKm, 150)).toBe(linear.spanKm);
});

it('is what is left of the span', () => {
  expect(wayLeft(makeWearCase(), 105_000, 150)).toBe(5_000);
});

it('is 0 past the limit, whether slip drifted, jumped or was there from the start', () => {
  expect(wayLeft(makeWearCase({ levelRpm: 163 }), 111_000, 150)).toBe(0);
  expect(wayLeft(makeStepCase({ levelRpm: 160 }), 111_000, 150)).toBe(0);
  expect(wayLeft(makeFlatCase({ levelRpm: 200, baselineRpm: 200 }), 111_000, 150)).toBe(0);
});

it('has no end where slip does not grow', () => {
  expect(wayLeft(makeFlatCase(), 105_000, 150)).toBe(Number.POSITIVE_INFINITY);
  expect(wayLeft(makeStepCase(), 105_000, 150)).toBe(Number.POSITIVE_INFINITY);
});
