import { expect, it } from 'vitest';
import { measureMedian } from './measure-median.ts';
import { measureWeightedMedian } from './measure-weighted-median.ts';

it('is the plain median with equal weights', () => {
  for (const values of [[3], [4, 1], [5, 9, 1], [2, 8, 4, 6], [1, 1, 2, 2]]) {
    expect(measureWeightedMedian(values)).toBe(measureMedian(values));
    expect(
      measureWeightedMedian(
        values,
        values.map(() => 0.1),
      ),
    ).toBe(measureMedian(values));
  }
});

it('counts a weight of three as three values', () => {
  expect(measureWeightedMedian([1, 2, 9], [1, 1, 3])).toBe(measureMedian([1, 2, 9, 9, 9]));
  expect(measureWeightedMedian([1, 2, 9], [1, 1, 2])).toBe(measureMedian([1, 2, 9, 9]));
});

it('is no number where nothing weighs', () => {
  expect(measureWeightedMedian([])).toBeNaN();
  expect(measureWeightedMedian([1], [0])).toBeNaN();
});
