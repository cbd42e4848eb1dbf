import { expect, it } from 'vitest';
import { unknownBand } from '#server/engine/platform/unknown-band.ts';
import { REFERENCE_BAND } from '#server/engine/stretches/band-of.ts';
import { healthyByDuty } from './healthy-by-duty.ts';

const edges = [40, 55, 70, 85, 100];
const learned = (band: number, baselineRpm: number, baselineSd: number) => ({
  band,
  baselineRpm,
  baselineSd,
});

it('runs as its note says', () => {
  expect(healthyByDuty([], edges)).toEqual([]);
});

it('holds 95 % between vehicles about the baseline, at the middle duty of the band', () => {
  const [range] = healthyByDuty([learned(2, 20, 5)], edges);
  expect(range?.dutyPct).toBe(77.5);
  expect(range?.usualRpm).toBe(20);
  // 1.959964: quantile of 0.975 of the standard normal, any table
  expect(range?.lowRpm).toBeCloseTo(20 - 1.959964 * 5, 5);
  expect(range?.highRpm).toBeCloseTo(20 + 1.959964 * 5, 5);
});

it('does not go below no slip', () => {
  expect(healthyByDuty([learned(0, 8, 6)], edges)[0]?.lowRpm).toBe(0);
});

it('goes by rising duty, without the reference point and what was never learned', () => {
  const bands = [learned(3, 12, 4), learned(REFERENCE_BAND, 14, 4), unknownBand(1), learned(0, 40, 9)];
  expect(healthyByDuty(bands, edges).map(({ dutyPct }) => dutyPct)).toEqual([47.5, 92.5]);
});
