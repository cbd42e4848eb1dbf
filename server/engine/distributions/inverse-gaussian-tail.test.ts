import { expect, it } from 'vitest';
import { inverseGaussianCdf } from './inverse-gaussian-cdf.ts';
import { inverseGaussianTail } from './inverse-gaussian-tail.ts';

it('runs as its note says', () => {
  expect(inverseGaussianTail(1, 1, 1)).toBeCloseTo(0.331898, 6);
});

it('completes the distribution function', () => {
  for (const x of [0.2, 1, 3, 9]) {
    expect(inverseGaussianTail(x, 2, 5) + inverseGaussianCdf(x, 2, 5)).toBeCloseTo(1, 13);
  }
  expect(inverseGaussianTail(0, 1, 1)).toBe(1);
});

it('refuses a mean or shape of 0', () => {
  expect(() => inverseGaussianTail(1, 0, 1)).toThrow('inverseGaussianTail requires');
});
