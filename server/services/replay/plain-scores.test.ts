import { expect, it } from 'vitest';
import type { StretchReading } from '#server/engine/stretches/build-stretches.ts';
import { gateRules } from '#tests/helpers/engine-settings.ts';
import { followPlainScores } from './plain-scores.ts';

const DAY_MS = 86_400_000;
const reading = (day: number, slipRpm: number, over: Partial<StretchReading> = {}): StretchReading => ({
  atMs: day * DAY_MS + 3_600_000,
  odometerKm: 1_000,
  slipRpm,
  dutyPct: 85,
  fluidC: 85,
  loadPct: 50,
  torquePct: null,
  speedKmh: 80,
  shifting: false,
  codes: null,
  ...over,
});
/** A second converter is fitted at 2,000 km. */
const scoresOf = (readings: StretchReading[], day: number, life = 1) => {
  const scores = followPlainScores(gateRules, ({ odometerKm }) => (odometerKm < 2_000 ? 1 : 2));
  scores.take(readings);
  return scores.look((day + 1) * DAY_MS, 200, life);
};
/** One reading a day, 20 rpm in the first week and 50 in the second. */
const twoWeeks = Array.from({ length: 14 }, (_, day) => reading(day, day < 7 ? 20 : 50));

it('holds the mean of 14 days against the limit, and a week against the one before', () => {
  expect(scoresOf(twoWeeks, 13)).toEqual({ levelPct: 17.5, riseRpm: 30 });
  // Two days on days 2 to 13 are left: five at 20 rpm and seven at 50.
  expect(scoresOf(twoWeeks, 15).levelPct).toBeCloseTo((100 * (5 * 20 + 7 * 50)) / 12 / 200, 12);
});

it('leaves out what is not usable, and low commands', () => {
  const others = [
    reading(13, 900, { shifting: true }),
    reading(13, 900, { dutyPct: 69 }),
    reading(13, 900, { fluidC: 20 }),
  ].map((one, i) => ({ ...one, atMs: one.atMs + (i + 1) * 3_600_000 }));
  expect(scoresOf([...twoWeeks, ...others], 13)).toEqual({ levelPct: 17.5, riseRpm: 30 });
});

it('says nothing from fewer than four readings on a side', () => {
  expect(scoresOf(twoWeeks.slice(0, 3), 6).levelPct).toBeNaN();
  expect(scoresOf(twoWeeks.slice(4), 13).riseRpm).toBeNaN();
});

it('asks nothing of a new converter because of the one before', () => {
  const changed = Array.from({ length: 5 }, (_, i) => reading(14 + i, 10, { odometerKm: 2_000 + i }));
  expect(scoresOf([...twoWeeks, ...changed], 14, 2)).toEqual({ levelPct: Number.NaN, riseRpm: Number.NaN });
  expect(scoresOf([...twoWeeks, ...changed], 18, 2)).toEqual({ levelPct: 5, riseRpm: Number.NaN });
});
