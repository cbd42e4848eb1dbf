import { expect, it } from 'vitest';
import { shareRisen } from './share-risen.ts';

it('runs as its note says', () => {
  expect(shareRisen({ law: 'power', value: 1 }, 5_000, 10_000)).toBe(0.5);
});

it('follows the power', () => {
  expect(shareRisen({ law: 'power', value: 3 }, 5_000, 10_000)).toBeCloseTo(1 / 8, 12);
  expect(shareRisen({ law: 'power', value: 6 }, 9_000, 10_000)).toBeCloseTo(0.531441, 12);
});

// By hand: with an e-folding length of 10,000 / ln 16 km the rise is 16^x - 1 over 16 - 1, x the part of the span gone:
// at a quarter 1 / 15, at half 3 / 15, at three quarters 7 / 15.
it('follows the exponential where slip feeds itself', () => {
  const feeding = { law: 'feedback', value: 10_000 / Math.log(16) } as const;
  [1, 3, 7, 15].forEach((fifteenths, i) => {
    expect(shareRisen(feeding, 2_500 * (i + 1), 10_000)).toBeCloseTo(fifteenths / 15, 12);
  });
});

it.each([
  { law: 'power', value: 1 },
  { law: 'power', value: 1.7 },
  { law: 'feedback', value: 4_000 },
] as const)('is 0 until the onset, 1 at the span and more beyond it: $law $value', (growth) => {
  expect(shareRisen(growth, -2_000, 10_000)).toBe(0);
  expect(shareRisen(growth, 0, 10_000)).toBe(0);
  expect(shareRisen(growth, 10_000, 10_000)).toBe(1);
  expect(shareRisen(growth, 12_000, 10_000)).toBeGreaterThan(1.19);
});

// exp(x) - 1 = x + x^2 / 2 + ...: with a folding length of 1,000 spans the path is even to 1 / 2,000.
it('is even wear where slip hardly feeds itself', () => {
  expect(shareRisen({ law: 'feedback', value: 1e7 }, 5_000, 10_000)).toBeCloseTo(0.5, 3);
});
