import { expect, it } from 'vitest';
import { logNormalCdf } from './log-normal-cdf.ts';
import { normalCdf } from './normal-cdf.ts';

// Abramowitz and Stegun (1964), table 26.2: -log10 Q(z) for z = 10, 40, 100, 500 (from memory).
it('agrees with the handbook table of extreme tails', () => {
  const tail = (z: number) => -logNormalCdf(-z) / Math.LN10;
  expect(tail(10)).toBeCloseTo(23.11805, 5);
  expect(tail(40)).toBeCloseTo(349.43701, 5);
  expect(tail(100)).toBeCloseTo(2173.87154, 5);
  expect(tail(500)).toBeCloseTo(54289.9083, 4);
});

it('joins the series to the plain logarithm without a step', () => {
  for (const z of [-12.0001, -15, -30]) expect(logNormalCdf(z) / Math.log(normalCdf(z))).toBeCloseTo(1, 12);
});

it('runs as its note says', () => {
  expect(logNormalCdf(-40)).toBeCloseTo(-804.608442, 6);
  expect(logNormalCdf(Number.NEGATIVE_INFINITY)).toBe(Number.NEGATIVE_INFINITY);
  expect(logNormalCdf(50)).toBeCloseTo(0, 15);
  expect(logNormalCdf(Number.NaN)).toBeNaN();
});
