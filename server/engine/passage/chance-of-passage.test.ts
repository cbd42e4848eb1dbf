import { expect, it } from 'vitest';
import { inverseGaussianCdf } from '#server/engine/distributions/inverse-gaussian-cdf.ts';
import { normalCdf } from '#server/engine/distributions/normal-cdf.ts';
import { chanceOfPassage } from './chance-of-passage.ts';

it('runs as its note says, and is the inverse Gaussian distribution', () => {
  expect(chanceOfPassage({ distance: 1, drift: 1, variance: 1 }, 1)).toBeCloseTo(0.668102, 6);
  const approach = { distance: 40, drift: 0.01, variance: 0.3 };
  for (const time of [500, 3000, 9000]) {
    expect(chanceOfPassage(approach, time)).toBeCloseTo(inverseGaussianCdf(time, 4000, 1600 / 0.3), 12);
  }
});

it('follows the reflection principle without a drift', () => {
  expect(chanceOfPassage({ distance: 2, drift: 0, variance: 1 }, 9)).toBeCloseTo(2 * normalCdf(-2 / 3), 12);
});

it('may never reach a limit that it drifts away from', () => {
  const approach = { distance: 2, drift: -0.5, variance: 1 };
  expect(chanceOfPassage(approach, 1e6)).toBeCloseTo(Math.exp(-2), 9);
});

it('does not overflow on a steady process far from the limit', () => {
  const approach = { distance: 1000, drift: 1, variance: 1e-6 };
  // 31.6 standard deviations early: Phi(-31.6) is about 5e-220.
  expect(chanceOfPassage(approach, 999) / 5.44e-220).toBeCloseTo(1, 2);
  expect(chanceOfPassage(approach, 1001)).toBe(1);
});

it('is 0 before the start, and refuses a limit already reached', () => {
  expect(chanceOfPassage({ distance: 1, drift: 1, variance: 1 }, 0)).toBe(0);
  expect(() => chanceOfPassage({ distance: 0, drift: 1, variance: 1 }, 1)).toThrow(
    'chanceOfPassage requires',
  );
});
