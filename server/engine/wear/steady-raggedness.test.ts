import { expect, it } from 'vitest';
import { steadyRaggedness } from './steady-raggedness.ts';

it('runs as its note says', () => {
  expect(steadyRaggedness(null, 6)).toBe(6);
});

// By hand: (40 * 6 + 1,200) / (40 + 100).
it('lets the clutch speak by its rise beside 40 rpm of what is usual', () => {
  expect(steadyRaggedness({ squares: 1_200, riseRpm: 100 }, 6)).toBeCloseTo(1_440 / 140, 12);
});

it('goes from the usual to the own with the rise', () => {
  const sizes = [1, 10, 100, 1_000].map((riseRpm) => steadyRaggedness({ squares: 20 * riseRpm, riseRpm }, 6));
  expect(sizes).toEqual([...sizes].sort((a, b) => a - b));
  expect(sizes[0]).toBeLessThan(6.5);
  expect(sizes[3]).toBeGreaterThan(19);
});

it('is 0 at the least, where noise outweighed the steps, and 60 rpm at the most', () => {
  expect(steadyRaggedness({ squares: -5_000, riseRpm: 100 }, 6)).toBe(0);
  expect(steadyRaggedness({ squares: 1e6, riseRpm: 100 }, 6)).toBe(60);
});

it('is the usual one where nothing rose', () => {
  expect(steadyRaggedness({ squares: 500, riseRpm: 0 }, 6)).toBe(6);
  expect(steadyRaggedness({ squares: 500, riseRpm: -3 }, 6)).toBe(6);
});
