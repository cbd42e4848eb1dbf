import { expect, it } from 'vitest';
import { rankValues } from './rank-values.ts';

it('gives equal values the mean of their ranks', () => {
  expect(rankValues([10, 30, 10])).toEqual([1.5, 3, 1.5]);
  expect(rankValues([5, 5, 5, 1])).toEqual([3, 3, 3, 1]);
  expect(rankValues([])).toEqual([]);
});
