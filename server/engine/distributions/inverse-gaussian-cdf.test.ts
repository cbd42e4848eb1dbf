import { expect, it } from 'vitest';
import { inverseGaussianCdf } from './inverse-gaussian-cdf.ts';

it('runs as its note says', () => {
  expect(inverseGaussianCdf(1, 1, 1)).toBeCloseTo(0.668102, 6);
});

it('is 0 where nothing can have passed, and 1 far out', () => {
  expect(inverseGaussianCdf(0, 1, 1)).toBe(0);
  expect(inverseGaussianCdf(1e6, 1, 1)).toBe(1);
});

it('does not overflow on a shape far above the mean', () => {
  expect(inverseGaussianCdf(1, 1, 1e8)).toBeCloseTo(0.5, 3);
});

it('refuses a mean or shape of 0', () => {
  expect(() => inverseGaussianCdf(1, 0, 1)).toThrow('inverseGaussianCdf requires');
  expect(() => inverseGaussianCdf(1, 1, 0)).toThrow('inverseGaussianCdf requires');
});
