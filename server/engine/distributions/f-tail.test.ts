import { expect, it } from 'vitest';
import { fTail } from './f-tail.ts';

// NIST/SEMATECH e-Handbook, 1.3.6.7.3, upper 5 % critical values of F, printed to three places (from memory).
it('agrees with the handbook table', () => {
  expect(fTail(4.103, 2, 10)).toBeCloseTo(0.05, 4);
  expect(fTail(4.965, 1, 10)).toBeCloseTo(0.05, 4);
});

it('keeps its digits far out: 1 / (1 + x) with two and two degrees of freedom', () => {
  expect(fTail(1e18, 2, 2) * 1e18).toBeCloseTo(1, 12);
  expect(fTail(0, 2, 2)).toBe(1);
});
