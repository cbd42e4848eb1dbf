import { expect, it } from 'vitest';
import { summariseStretch } from '#server/engine/stretches/summarise-stretch.ts';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import type { ConditionEffects } from './fit-condition-effects.ts';
import { measureSpreadLeft } from './measure-spread-left.ts';

const noEffects: ConditionEffects = { healthy: [0, 0, 0], worn: [0, 0, 0] };

it('runs as its note says', () => {
  expect(measureSpreadLeft([0, 0, 0, 0, 0, 0, 0, 0, 0, 8], 2, 0, noEffects)).toBe(2);
});

// By hand: loads -10, 10 and slips -6, 6 of weight 1: ll 200, ls 120, ss 72. An effect of 0.5 leaves -1 and 1.
it('takes off what the load explains', () => {
  const moments = [200, 0, 0, 120, 0, 0, 0, 0, 0, 72];
  expect(measureSpreadLeft(moments, 2, 0, { ...noEffects, healthy: [0.5, 0, 0] })).toBeCloseTo(1, 12);
  expect(measureSpreadLeft(moments, 2, 2, { healthy: [0.1, 0, 0], worn: [0.2, 0, 0] })).toBeCloseTo(1, 12);
});

it('is 0 where rounding would leave less than nothing', () => {
  const moments = [200, 0, 0, 120, 0, 0, 0, 0, 0, 72 - 1e-9];
  expect(measureSpreadLeft(moments, 2, 0, { ...noEffects, healthy: [0.6, 0, 0] })).toBe(0);
});

// The readings' own residuals, one by one. All have the same weight in the stretch: uniform within 12 rpm, no slip is far
// enough out for a bounded pull.
it('is the spread of what the effects leave of the single readings, all three conditions together', () => {
  const { normal, uniform } = seededRandom(9);
  const readings = Array.from({ length: 40 }, () => ({
    odometerKm: 1,
    loadPct: 50 + 8 * normal(),
    fluidC: 85 + 6 * normal(),
    dutyPct: 80 + 5 * normal(),
    slipRpm: 30 + 12 * (uniform() - 0.5),
    weight: 1,
  }));
  const { moments, weight } = summariseStretch(readings);
  const effects: ConditionEffects = { healthy: [0.4, 0.2, -0.3], worn: [0.5, -0.1, -0.6] };
  const left = readings.map(
    (one) => one.slipRpm - 0.9 * (one.loadPct - 50) - 0.1 * (one.fluidC - 85) + 0.9 * (one.dutyPct - 80),
  );
  const mean = left.reduce((a, b) => a + b, 0) / left.length;
  const squares = left.reduce((sum, one) => sum + (one - mean) ** 2, 0);
  expect(weight).toBeCloseTo(40, 9);
  expect(measureSpreadLeft(moments, weight, 1, effects)).toBeCloseTo(Math.sqrt(squares / 40), 9);
});
