import { expect, it } from 'vitest';
import { fCdf } from './f-cdf.ts';

// NIST/SEMATECH e-Handbook, 1.3.6.7.3, upper 5 % critical values of F, printed to three places (from memory).
it('agrees with the handbook table', () => {
  expect(fCdf(4.103, 2, 10)).toBeCloseTo(0.95, 4);
  expect(fCdf(161.448, 1, 1)).toBeCloseTo(0.95, 6);
});

it('follows the closed form with two and two degrees of freedom', () => {
  expect(fCdf(3, 2, 2)).toBeCloseTo(0.75, 14);
  expect(fCdf(-1, 2, 2)).toBe(0);
});
