import fc from 'fast-check';
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

it('is the middle of plain sorting, whatever the order, ties and infinities', () => {
  const value = fc.oneof(
    fc.integer({ min: -4, max: 4 }),
    fc.double({ noNaN: true }),
    fc.constantFrom(Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, Number.NaN),
  );
  fc.assert(
    fc.property(fc.array(value, { minLength: 1, maxLength: 240, size: 'max' }), (values) => {
      const sorted = Float64Array.from(values).sort();
      const n = sorted.length;
      const upper = sorted[n >> 1] ?? 0;
      const middle = n % 2 === 1 ? upper : ((sorted[(n >> 1) - 1] ?? 0) + upper) / 2;
      expect(measureMedian(values) + 0).toBe(middle + 0);
    }),
    { numRuns: 150 },
  );
});

it('ends in time on orders made to be unlucky', () => {
  const pipe = Array.from({ length: 20_001 }, (_, i) => (i % 2 === 0 ? i : 20_001 - i));
  expect(measureMedian(pipe)).toBe([...pipe].sort((a, b) => a - b)[10_000]);
});
