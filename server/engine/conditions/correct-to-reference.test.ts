import { expect, it } from 'vitest';
import { correctToReference } from './correct-to-reference.ts';

const reference = { dutyPct: 85, loadPct: 50, fluidC: 85 };
const stretchAtReference = { slipRpm: 31, loadPct: 50, fluidC: 85, dutyPct: 85 };
type Three = [number, number, number];
const effects = { healthy: [0.5, 0.2, -0.4] as Three, worn: [1, 0.1, -2] as Three };

it('runs as its note says', () => {
  expect(correctToReference(stretchAtReference, effects, 0, reference, true)).toBe(31);
});

// By hand: load 10 below at 0.5 rpm each is 5 rpm too little; fluid 5 above at 0.2 is 1 too much; duty 5 below at -0.4
// is 2 too much.
it('adds what the load lacks and takes off what heat and command add', () => {
  const away = { slipRpm: 30, loadPct: 40, fluidC: 90, dutyPct: 80 };
  expect(correctToReference(away, effects, 0, reference, true)).toBeCloseTo(30 + 5 - 1 - 2, 12);
});

it('corrects a worn clutch by its steeper effects', () => {
  const away = { slipRpm: 100, loadPct: 40, fluidC: 85, dutyPct: 85 };
  expect(correctToReference(away, effects, 2, reference, true)).toBeCloseTo(100 + 10 * (0.5 + 2 * 1), 12);
});

it('leaves duty alone within a command band, and load and temperature where the feed has none', () => {
  const away = { slipRpm: 30, loadPct: null, fluidC: null, dutyPct: 60 };
  expect(correctToReference(away, effects, 1, reference, false)).toBe(30);
  expect(correctToReference({ ...away, fluidC: 95 }, effects, 0, reference, false)).toBeCloseTo(28, 12);
});
