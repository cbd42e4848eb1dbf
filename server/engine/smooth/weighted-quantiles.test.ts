import { expect, it } from 'vitest';
import { weightedQuantiles } from './weighted-quantiles.ts';

it('runs as its note says', () => {
  expect(weightedQuantiles([1, 2, 3], [1, 1, 2], [0.5])).toEqual([2]);
});

it('counts a weight as so many values, in any order', () => {
  const spread = weightedQuantiles([5, 1, 1, 1, 9], [1, 1, 1, 1, 1], [0.1, 0.5, 0.7, 0.9]);
  expect(weightedQuantiles([9, 1, 5], [1, 3, 1], [0.1, 0.5, 0.7, 0.9])).toEqual(spread);
  expect(spread).toEqual([1, 1, 5, 9]);
});

it('reaches the least and the largest value at 0 and 1', () => {
  expect(weightedQuantiles([4, 2, 8], [0.2, 0.3, 0.5], [0, 1])).toEqual([2, 8]);
});

it('does not depend on the unit of the weights', () => {
  const probabilities = [0.1, 0.3, 0.5, 0.9];
  const values = Array.from({ length: 10 }, (_, i) => i);
  const of = (unit: number) =>
    weightedQuantiles(
      values,
      values.map(() => unit),
      probabilities,
    );
  expect(of(0.1)).toEqual(of(1));
  expect(of(1)).toEqual([0, 2, 4, 8]);
});

it('gives no number where there are none, and refuses unequal lengths', () => {
  expect(weightedQuantiles([], [], [0.5])).toEqual([Number.NaN]);
  expect(() => weightedQuantiles([1], [], [0.5])).toThrow('weightedQuantiles requires');
});
