import { expect, it } from 'vitest';
import type { Series } from '#server/engine/assessment/build-series.ts';
import { makePoint } from '#tests/helpers/make-stretch.ts';
import { compareByDuty } from './compare-by-duty.ts';

const makeBand = (band: number, dutyPct: number, slips: readonly number[], life = 1): Series => ({
  band,
  points: slips.map((slip, i) => makePoint(i, slip, { dutyPct, life })),
  effects: { healthy: [0, 0, 0], worn: [0, 0, 0] },
  rises: [],
});
const rising = [...new Array<number>(20).fill(20), ...new Array<number>(10).fill(60)];

it('sets the last 2,500 km against the kilometres before the onset, band by band', () => {
  const bands = [
    makeBand(0, 50, rising),
    makeBand(
      3,
      90,
      rising.map((slip) => slip / 2),
    ),
  ];
  const found = compareByDuty(bands, 1, 0, 110_000);
  expect(found).toMatchObject({ healthy_km: [100_250, 110_000], now_km: [112_250, 114_750] });
  expect(found?.healthy.map(({ duty_pct, slip_rpm }) => [duty_pct, slip_rpm])).toEqual([
    [50, 20],
    [90, 10],
  ]);
  expect(found?.now.map(({ slip_rpm }) => slip_rpm)).toEqual([60, 30]);
});

// Six stretches of 2 rpm each: 1.96 * 2 / sqrt(6) = 1.6.
it('gives each mean its interval of 95 % and its effective count', () => {
  expect(compareByDuty([makeBand(0, 50, rising)], 1, 0, 110_000)?.now).toEqual([
    { duty_pct: 50, slip_rpm: 60, low: 58.4, high: 61.6, n: 36 },
  ]);
});

it('takes all but the last kilometres as healthy where nothing rose', () => {
  const found = compareByDuty([makeBand(0, 50, new Array<number>(30).fill(20))], 1, 0, null);
  expect(found?.healthy_km).toEqual([100_250, 112_250]);
});

it('has no healthy curve where the vehicle came slipping or the life is short', () => {
  expect(compareByDuty([makeBand(0, 50, rising)], 1, 0, 90_000)?.healthy).toEqual([]);
  expect(compareByDuty([makeBand(0, 50, [20, 20])], 1, 0, null)?.healthy).toEqual([]);
});

it('looks at the life asked for, and is null without one', () => {
  const bands = [makeBand(0, 50, rising), makeBand(1, 60, [15, 15, 15], 2)];
  expect(compareByDuty(bands, 2, 0, null)?.now.map(({ duty_pct }) => duty_pct)).toEqual([60]);
  expect(compareByDuty(bands, 3, 0, null)).toBeNull();
});
