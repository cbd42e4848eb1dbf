import { expect, it } from 'vitest';
import { chanceOfKendall } from './chance-of-kendall.ts';

it('runs as its note says', () => {
  expect(chanceOfKendall({ n: 3, s: 3 })).toBeCloseTo(1 / 3, 14);
});

it('has the upper tails of the printed table for few values', () => {
  // Kendall (1975), appendix table 1, as in Hollander and Wolfe (1973), table A.21 (from memory): P(S >= 4 | n = 4) =
  // 0.167, P(S >= 6 | n = 4) = 0.042, P(S >= 8 | n = 5) = 0.042; twice that for both sides.
  expect(chanceOfKendall({ n: 4, s: 4 })).toBeCloseTo(2 * 0.167, 2.5);
  expect(chanceOfKendall({ n: 4, s: -6 })).toBeCloseTo(2 / 24, 12);
  expect(chanceOfKendall({ n: 5, s: 8 })).toBeCloseTo(2 * 0.042, 2.5);
});

it('is 1 for no association, and one value is none', () => {
  expect(chanceOfKendall({ n: 6, s: 0 })).toBeCloseTo(1, 14);
  expect(chanceOfKendall({ n: 1, s: 0 })).toBe(1);
  expect(() => chanceOfKendall({ n: 0, s: 0 })).toThrow('chanceOfKendall requires');
});
