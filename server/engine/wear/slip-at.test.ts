import { expect, it } from 'vitest';
import { makeFlatCase, makeStepCase, makeWearCase } from '#tests/helpers/make-wear-case.ts';
import { slipAt } from './slip-at.ts';

it('runs as its note says', () => {
  const linear = makeWearCase();
  expect(slipAt(linear, linear.onsetKm, 150)).toBe(linear.baselineRpm);
});

it('is healthy before the onset, half way up in the middle and at the limit at the end of linear wear', () => {
  const linear = makeWearCase();
  expect([90_000, 105_000, 110_000].map((km) => slipAt(linear, km, 150))).toEqual([20, 85, 150]);
});

it('rises late where wear accelerates', () => {
  const cubic = makeWearCase({ growth: { law: 'power', value: 3 } });
  expect(slipAt(cubic, 105_000, 150)).toBeCloseTo(20 + 130 / 8, 12);
});

// By hand: an e-folding length of 10,000 km / ln 9 makes 9 - 1 = 8 at the end and sqrt(9) - 1 = 2 half way there.
it('rises exponentially where slip feeds itself', () => {
  const feeding = makeWearCase({ growth: { law: 'feedback', value: 10_000 / Math.log(9) } });
  expect(slipAt(feeding, 105_000, 150)).toBeCloseTo(20 + (130 * 2) / 8, 9);
  expect(slipAt(feeding, 110_000, 150)).toBeCloseTo(150, 9);
});

it('jumps at a step and stays; a flat case stays', () => {
  expect([100_000, 100_001, 140_000].map((km) => slipAt(makeStepCase(), km, 150))).toEqual([20, 70, 70]);
  expect(slipAt(makeFlatCase(), 140_000, 150)).toBe(20);
});
