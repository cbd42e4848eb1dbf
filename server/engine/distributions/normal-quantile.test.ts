import { expect, it } from 'vitest';
import { normalCdf } from './normal-cdf.ts';
import { normalQuantile } from './normal-quantile.ts';

// Abramowitz and Stegun (1964), table 26.5 (from memory).
it('agrees with the handbook table', () => {
  expect(normalQuantile(0.975)).toBeCloseTo(1.959963984540054, 12);
  expect(normalQuantile(0.95)).toBeCloseTo(1.644853626951472, 12);
});

it('undoes the distribution function', () => {
  for (const z of [-6, -1.3, 0, 0.2, 4]) expect(normalQuantile(normalCdf(z))).toBeCloseTo(z, 8);
  expect(normalQuantile(0)).toBe(Number.NEGATIVE_INFINITY);
  expect(normalQuantile(1.1)).toBeNaN();
});
