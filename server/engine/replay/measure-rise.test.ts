import { expect, it } from 'vitest';
import { measureRise } from './measure-rise.ts';

const slips = (...values: number[]) => values.map((slipRpm) => ({ slipRpm }));

it('is the way that the last three points have come from healthy to the limit', () => {
  // healthy 10 by the platform, last three 80, 90, 60: (80 - 10) / (150 - 10)
  expect(measureRise(slips(12, 12, 12, 12, 12, 12, 12, 80, 90, 60), 10, 150)).toBeCloseTo(0.5, 12);
});

it('does not take a life for healthy that was first seen slipping', () => {
  expect(measureRise(slips(80, 80, 80, 80), 10, 150)).toBeCloseTo(0.5, 12);
});

it('takes the own level of a clutch that runs below its platform', () => {
  expect(measureRise(slips(6, 6, 6, 6, 6, 6), 10, 150)).toBe(0);
});

it('is not had from fewer than three points', () => {
  expect(measureRise(slips(6, 150), 10, 150)).toBeNull();
});
