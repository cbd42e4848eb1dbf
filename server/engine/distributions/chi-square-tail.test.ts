import { expect, it } from 'vitest';
import { chiSquareTail } from './chi-square-tail.ts';

// NIST/SEMATECH e-Handbook, 1.3.6.7.4, critical values of chi-square, printed to three places (from memory).
it('agrees with the handbook table', () => {
  expect(chiSquareTail(3.841, 1)).toBeCloseTo(0.05, 4);
  expect(chiSquareTail(23.209, 10)).toBeCloseTo(0.01, 5);
});

it('keeps its digits far out: exp(-x / 2) with two degrees of freedom', () => {
  expect(chiSquareTail(200, 2) / Math.exp(-100)).toBeCloseTo(1, 12);
  expect(chiSquareTail(0, 2)).toBe(1);
  expect(chiSquareTail(-1, 2)).toBe(1);
});
