import { expect, it } from 'vitest';
import { normalCdf } from './normal-cdf.ts';

// Abramowitz and Stegun (1964), table 26.1 (from memory).
it('agrees with the handbook table', () => {
  expect(normalCdf(0)).toBe(0.5);
  expect(normalCdf(1)).toBeCloseTo(0.841344746068543, 14);
  expect(normalCdf(1.96)).toBeCloseTo(0.97500210485178, 14);
});

// Abramowitz and Stegun (1964), table 26.2: -log10 Q(10) = 23.11805 (from memory).
it('keeps its digits in the lower tail', () => {
  expect(-Math.log10(normalCdf(-10))).toBeCloseTo(23.11805, 5);
});
