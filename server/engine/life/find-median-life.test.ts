import { expect, it } from 'vitest';
import { findMedianLife } from './find-median-life.ts';

const point = { x: 5, atRisk: 2, events: 1, censored: 0, survival: 0.5, se: 0.35, low: 0.01, high: 0.91 };

it('runs as its note says', () => {
  expect(findMedianLife([point])).toEqual({ estimate: 5, low: 5, high: null });
});

it('takes one half for reached though rounding left it a little above', () => {
  expect(findMedianLife([{ ...point, survival: (1 / 3) * 1.5 + 1e-16 }])?.estimate).toBe(5);
});

it('is none where survival stays above', () => {
  expect(findMedianLife([{ ...point, survival: 0.51 }])).toBeNull();
  expect(findMedianLife([])).toBeNull();
});
