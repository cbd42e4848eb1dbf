import { expect, it } from 'vitest';
import { estimateBaseline } from './estimate-baseline.ts';

it('runs as its note says: the ninth value takes no part', () => {
  expect(estimateBaseline([1, 2, 3, 1, 2, 3, 1, 2, 90], 8)).toEqual({ target: 2, sd: 1.4826, count: 8 });
  expect(estimateBaseline([1, 2, 3, 1, 2, 3, 1, 2, 90], 3)).toMatchObject({ count: 8 });
});

it('takes the plain standard deviation where more than half are equal', () => {
  // By hand: mean 2.125, sum of squares 0.875, by 7.
  const baseline = estimateBaseline([2, 2, 2, 2, 2, 2, 2, 3], 8);
  expect(baseline).toMatchObject({ target: 2 });
  expect((baseline as { sd: number }).sd).toBeCloseTo(Math.sqrt(0.125), 12);
});

it('declines few and equal values', () => {
  expect(estimateBaseline([1, 2, 3], 3)).toMatchObject({ declined: { needed: 'at least 8', got: '3' } });
  expect(estimateBaseline(new Array(9).fill(0.1), 9)).toMatchObject({
    declined: { reason: 'baseline without scatter', got: '9 equal ones' },
  });
  expect(() => estimateBaseline([Number.NaN], 1)).toThrow('estimateBaseline requires');
});
