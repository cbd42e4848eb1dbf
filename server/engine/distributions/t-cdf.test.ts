import { expect, it } from 'vitest';
import { tCdf } from './t-cdf.ts';

// NIST/SEMATECH e-Handbook, 1.3.6.7.2, critical values of Student's t, printed to three places (from memory).
it('agrees with the handbook table', () => {
  expect(tCdf(2.228, 10)).toBeCloseTo(0.975, 4);
  expect(tCdf(6.314, 1)).toBeCloseTo(0.95, 5);
  expect(tCdf(2.75, 30)).toBeCloseTo(0.995, 5);
});

it('follows the closed form with one degree of freedom', () => {
  expect(tCdf(-1, 1)).toBeCloseTo(0.25, 14);
  expect(tCdf(0, -1)).toBeNaN();
});
