import { expect, it } from 'vitest';
import { tQuantile } from './t-quantile.ts';

// NIST/SEMATECH e-Handbook, 1.3.6.7.2, critical values of Student's t, printed to three places (from memory).
it('agrees with the handbook table', () => {
  expect(tQuantile(0.975, 10)).toBeCloseTo(2.228139, 6);
  expect(Math.abs(tQuantile(0.95, 1) - 6.314)).toBeLessThan(0.0005);
  expect(Math.abs(tQuantile(0.995, 30) - 2.75)).toBeLessThan(0.0005);
});

it('follows the closed form with two degrees of freedom', () => {
  // t = (2p - 1) / sqrt(2 p (1 - p))
  expect(tQuantile(0.9, 2)).toBeCloseTo(0.8 / Math.sqrt(0.18), 12);
  expect(tQuantile(1.5, 2)).toBeNaN();
});
