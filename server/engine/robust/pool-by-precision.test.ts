import { expect, it } from 'vitest';
import { poolByPrecision } from './pool-by-precision.ts';

it('runs as its note says', () => {
  expect(poolByPrecision([1, 3], [1, 1])).toEqual({ mean: 2, se: expect.closeTo(Math.SQRT1_2, 12) });
});

// By hand: weights 1 and 4, mean (0 + 4 * 10) / 5, error 1 / sqrt(5).
it('leans to the more precise', () => {
  expect(poolByPrecision([0, 10], [1, 0.5])).toEqual({ mean: 8, se: expect.closeTo(1 / Math.sqrt(5), 12) });
});

it('gives one value back, nothing for none, and refuses unequal lengths', () => {
  expect(poolByPrecision([7], [2])).toEqual({ mean: 7, se: 2 });
  expect(poolByPrecision([], [])).toEqual({ mean: Number.NaN, se: Number.POSITIVE_INFINITY });
  expect(() => poolByPrecision([1], [])).toThrow('poolByPrecision requires');
});
