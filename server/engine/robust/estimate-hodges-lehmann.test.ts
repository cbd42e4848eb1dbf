import { expect, it } from 'vitest';
import { estimateHodgesLehmann } from './estimate-hodges-lehmann.ts';

it('runs as its note says', () => {
  // Means of two of 1, 2, 6: 1, 1.5, 2, 3.5, 4, 6.
  expect(estimateHodgesLehmann([1, 2, 6])).toBe(2.75);
});

it('declines without values and above what it holds', () => {
  expect(estimateHodgesLehmann([])).toMatchObject({ declined: { reason: 'no values' } });
  expect(estimateHodgesLehmann(Array(2001).fill(1))).toMatchObject({ declined: { needed: 'at most 2000' } });
});
