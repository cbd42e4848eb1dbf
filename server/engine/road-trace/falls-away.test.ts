import { expect, it } from 'vitest';
import { fallsAway } from './falls-away.ts';

const of = (slipRpm: number, high: number) =>
  fallsAway({ slipRpm, slope: { estimate: high - 2, low: high - 4, high } });

it('runs as its note says', () => {
  expect(fallsAway({ slipRpm: 300, slope: { estimate: -40, low: -60, high: -20 } })).toBe(true);
});

it('takes slip that would be gone within a minute as falling away', () => {
  expect(of(540, -9)).toBe(true);
  expect(of(540, -8.9)).toBe(false);
});

it('does not call slip falling for a slope that is only certain, or not even that', () => {
  expect(of(540, -0.2)).toBe(false);
  expect(of(540, 1)).toBe(false);
  expect(of(0, -1)).toBe(false);
});
