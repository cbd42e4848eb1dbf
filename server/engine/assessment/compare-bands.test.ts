import { expect, it } from 'vitest';
import { makePoint } from '#tests/helpers/make-stretch.ts';
import type { Series } from './build-series.ts';
import { compareBands } from './compare-bands.ts';

const makeBand = (band: number, slips: readonly number[]): Series => ({
  band,
  points: slips.map((slip, i) => makePoint(i, slip)),
  effects: { healthy: [0, 0, 0], worn: [0, 0, 0] },
  rises: [],
});

it('runs as its note says', () => {
  expect(compareBands([], null, 0)).toEqual([]);
});

// 10 stretches before the onset and the 7 of the last 3,000 km, each 2 rpm uncertain: 2 * sqrt(1 / 10 + 1 / 7).
it('sets the last 3,000 km against those before the onset', () => {
  const slips = [...new Array<number>(10).fill(20), 30, 40, ...new Array<number>(8).fill(50)];
  expect(compareBands([makeBand(2, slips)], 105_000, 0)).toEqual([
    { band: 2, riseRpm: 30, seRpm: expect.closeTo(2 * Math.sqrt(1 / 10 + 1 / 7), 12) },
  ]);
});

it('takes the first third as healthy where no onset is known', () => {
  const slips = [...new Array<number>(4).fill(20), ...new Array<number>(8).fill(26)];
  expect(compareBands([makeBand(0, slips)], null, 0)).toMatchObject([{ riseRpm: 6 }]);
});

it('leaves out what lies before the first km that counts', () => {
  const slips = [90, 90, 90, 20, 20, 20, 20, 20, 20];
  expect(compareBands([makeBand(0, slips)], 103_000, 101_500)).toMatchObject([{ riseRpm: 0 }]);
});

it('leaves out bands without two stretches on both sides', () => {
  expect(compareBands([makeBand(0, [20, 20, 20]), makeBand(1, [])], 100_600, 0)).toEqual([]);
});

it('takes the same last kilometres in every band, however long ago one was last used', () => {
  const slips = [...new Array<number>(10).fill(20), ...new Array<number>(20).fill(50)];
  const old = makeBand(0, slips.slice(0, 20));
  expect(compareBands([old, makeBand(1, slips)], 105_000, 0)).toMatchObject([{ band: 1, riseRpm: 30 }]);
});

it('looks at the same kilometres of every band, so that a band with few stretches is not judged by its past', () => {
  const full = makeBand(3, [...new Array<number>(20).fill(20), ...new Array<number>(7).fill(80)]);
  const thin: Series = { ...full, band: 0, points: full.points.filter((_, i) => i % 5 === 0 || i >= 25) };
  expect(compareBands([thin, full], 110_000, 0)).toMatchObject([{ riseRpm: 60 }, { riseRpm: 60 }]);
});
