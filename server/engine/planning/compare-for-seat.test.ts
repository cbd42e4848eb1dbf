import { expect, it } from 'vitest';
import { compareForSeat } from './compare-for-seat.ts';

const one = (hold: boolean) => ({ hold, quarters: 8, values: [] });

it('runs as its note says', () => {
  expect(compareForSeat([one(false), one(true)], () => 0)(0, 1) > 0).toBe(true);
});

it('puts those on hold first, then the dearest, then as they came', () => {
  const candidates = [one(false), one(false), one(true), one(true), one(false)];
  const worth = [5, 9, 1, 1, 5];
  expect([0, 1, 2, 3, 4].sort(compareForSeat(candidates, (i) => worth[i] ?? 0))).toEqual([2, 3, 1, 0, 4]);
});
