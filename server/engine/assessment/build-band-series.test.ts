import { expect, it } from 'vitest';
import { unknownPlatform } from '#server/engine/platform/platform-context.ts';
import { unknownBand } from '#server/engine/platform/unknown-band.ts';
import { platformSettings as settings } from '#tests/helpers/engine-settings.ts';
import { makeStretch } from '#tests/helpers/make-stretch.ts';
import { buildBandSeries } from './build-band-series.ts';

it('runs as its note says', () => {
  expect(buildBandSeries([], settings, unknownPlatform)).toHaveLength(5);
});

it('gives each band its own stretches and its own context, the one at the reference point first', () => {
  const rows = [3, -1, 1, 9].map((band, i) => makeStretch(i, 20, { band }));
  const worn: [number, number, number] = [1, 2, 3];
  const learned = { ...unknownBand(1), effects: { healthy: worn, worn } };
  const series = buildBandSeries(rows, settings, { bands: [learned] });
  expect(series.map(({ band, points }) => [band, points.map(({ km }) => km)])).toEqual([
    [-1, [100_750]],
    [0, []],
    [1, [101_250]],
    [2, []],
    [3, [100_250]],
  ]);
  expect(series[2]?.effects).not.toEqual(series[1]?.effects);
});
