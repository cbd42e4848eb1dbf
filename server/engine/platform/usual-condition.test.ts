import { expect, it } from 'vitest';
import { normalQuantile } from '#server/engine/distributions/normal-quantile.ts';
import { usualCondition } from './usual-condition.ts';

/** Conditions of N(mean, sd^2) as a kernel about 50 of width 15 weighs them. */
function seenThroughKernel(mean: number, sd: number) {
  const values = Array.from({ length: 999 }, (_, i) => mean + sd * normalQuantile((i + 1) / 1000));
  const weights = values.map((value) => Math.exp(-0.5 * ((value - 50) / 15) ** 2));
  const total = weights.reduce((a, b) => a + b, 0);
  const centre = values.reduce((sum, value, i) => sum + value * (weights[i] ?? 0), 0) / total;
  const variance =
    values.reduce((sum, value, i) => sum + (value - centre) ** 2 * (weights[i] ?? 0), 0) / total;
  return { mean: centre, variance, weight: total };
}

it('gives the middle of the conditions back that a kernel drew towards the reference', () => {
  const seen = seenThroughKernel(65, 12);
  expect(seen.mean).toBeLessThan(60);
  // The tails beyond 0.1 % are cut off: 0.2 is ten times what that moves.
  expect(Math.abs((usualCondition([seen], 50, 15) ?? 0) - 65)).toBeLessThan(0.2);
});

it('counts the spread between stretches as well as within', () => {
  const wide = [
    { mean: 46, variance: 40, weight: 1 },
    { mean: 66, variance: 40, weight: 1 },
  ];
  const narrow = wide.map((one) => ({ ...one, mean: 56 }));
  expect(usualCondition(wide, 50, 15)).toBeGreaterThan(usualCondition(narrow, 50, 15) ?? 0);
});

it('does not run away where the spread is that of the kernel', () => {
  expect(usualCondition([{ mean: 58, variance: 400, weight: 1 }], 50, 15)).toBeCloseTo(90, 9);
});

it('knows nothing of no stretches', () => {
  expect(usualCondition([], 50, 15)).toBeNull();
});
