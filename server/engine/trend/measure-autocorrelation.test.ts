import { expect, it } from 'vitest';
import { measureAutocorrelation } from './measure-autocorrelation.ts';

it('runs as its note says', () => {
  // By hand: deviations -1.5, -0.5, 0.5, 1.5: (0.75 - 0.25 + 0.75) / 5.
  expect(measureAutocorrelation([1, 2, 3, 4], 1)).toBeCloseTo(0.25, 12);
});

it('is 1 at lag 0, and 0 beyond the series or where all are equal', () => {
  expect(measureAutocorrelation([1, 5, 2], 0)).toBe(1);
  expect(measureAutocorrelation([1, 5, 2], 3)).toBe(0);
  expect(measureAutocorrelation([2, 2, 2], 1)).toBe(0);
});
