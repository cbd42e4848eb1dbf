import { expect, it } from 'vitest';
import { measureWeightedMad } from './measure-weighted-mad.ts';

it('runs as its note says', () => {
  expect(measureWeightedMad([1, 2, 3])).toBeCloseTo(1.4826, 12);
});

it('counts a weight as so many values', () => {
  expect(measureWeightedMad([1, 4, 9], [3, 1, 2])).toBeCloseTo(measureWeightedMad([1, 1, 1, 4, 9, 9]), 12);
});

it('is 0 where more than half are equal', () => {
  expect(measureWeightedMad([5, 5, 5, 80])).toBe(0);
});
