import { expect, it } from 'vitest';
import { boundUnknownBreak } from './bound-unknown-break.ts';

it('is the plain tail where nothing was searched', () => {
  expect(boundUnknownBreak({ peak: 3, length: 0, dimensions: null })).toBeCloseTo(0.001349898, 9);
});

// On a circle the bound is exact: an arc of 1 radian and its neighbourhood of acos(r) on both sides, over 2 pi.
it('is the share of the circle within reach of the path, in two dimensions', () => {
  const r = 0.9;
  expect(boundUnknownBreak({ peak: r, length: 1, dimensions: 2 })).toBeCloseTo(
    (1 + 2 * Math.acos(r)) / (2 * Math.PI),
    12,
  );
});

it('tends to the known case with many dimensions', () => {
  const m = 1e6;
  expect(boundUnknownBreak({ peak: 3 / Math.sqrt(m), length: 2, dimensions: m })).toBeCloseTo(
    boundUnknownBreak({ peak: 3, length: 2, dimensions: null }),
    6,
  );
});

it('is capped, and 0 for a perfect fit', () => {
  expect(boundUnknownBreak({ peak: -2, length: 9, dimensions: null })).toBe(1);
  expect(boundUnknownBreak({ peak: 1, length: 9, dimensions: 5 })).toBe(0);
  expect(() => boundUnknownBreak({ peak: 0.5, length: 1, dimensions: 1 })).toThrow('requires at least 2');
});
