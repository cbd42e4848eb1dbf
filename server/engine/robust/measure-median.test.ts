import { expect, it } from 'vitest';
import { measureMedian } from './measure-median.ts';

it('runs as its note says', () => {
  expect(measureMedian([3, 1, 2])).toBe(2);
});

it('halves the way between the two middle values', () => {
  expect(measureMedian([10, -2, 4, 7])).toBe(5.5);
});

it('sorts as numbers, and leaves the values as they were', () => {
  const values = [100, 9, 20];
  expect(measureMedian(values)).toBe(20);
  expect(values).toEqual([100, 9, 20]);
});

it('is no number where there are none', () => {
  expect(measureMedian([])).toBeNaN();
});
