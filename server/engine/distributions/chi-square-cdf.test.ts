import { expect, it } from 'vitest';
import { chiSquareCdf } from './chi-square-cdf.ts';

// NIST/SEMATECH e-Handbook, 1.3.6.7.4, critical values of chi-square, printed to three places (from memory).
it('agrees with the handbook table', () => {
  expect(chiSquareCdf(3.841, 1)).toBeCloseTo(0.95, 4);
  expect(chiSquareCdf(18.307, 10)).toBeCloseTo(0.95, 5);
});

it('follows the closed form with two degrees of freedom', () => {
  expect(chiSquareCdf(3, 2)).toBeCloseTo(1 - Math.exp(-1.5), 14);
  expect(chiSquareCdf(-1, 2)).toBe(0);
});
