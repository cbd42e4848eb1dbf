import { expect, it } from 'vitest';
import { unknownBand } from '#server/engine/platform/unknown-band.ts';
import { makePoint } from '#tests/helpers/make-stretch.ts';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import type { Series } from './build-series.ts';
import { weighEvidence } from './weigh-evidence.ts';

const usual = { mean: 16, sd: 1 };

function makeSeries(n: number, curve: (i: number) => number, seed: number, band = -1): Series {
  const { normal } = seededRandom(seed);
  const points = Array.from({ length: n }, (_, i) => makePoint(i, curve(i) + 2 * normal()));
  return { band, points, effects: { healthy: [0, 0, 0], worn: [0, 0, 0] }, rises: [] };
}
const flat = () => 16;
const rising = (i: number) => 16 + Math.max(0, i - 20);

it('runs as its note says', () => {
  expect(weighEvidence([], 1, unknownBand, { mean: 15, sd: 1 }).levelSpeaks).toBe(false);
});

// 400 flat series: the share with p below 0.05 may exceed 5 % by 3 * sqrt(0.05 * 0.95 / 400) = 3.3 %.
it('calls flat series rising no more often than it says', () => {
  const found = Array.from({ length: 400 }, (_, seed) =>
    weighEvidence([makeSeries(30, flat, seed + 1)], 1, unknownBand, usual),
  );
  expect(found.filter(({ p }) => p < 0.05).length / 400).toBeLessThan(0.083);
});

it('finds a rise in one band though the others fall', () => {
  const falling = (i: number) => 40 - 0.5 * i;
  const bands = [1, 2, 3].map((band) => makeSeries(40, falling, band, band));
  const { p } = weighEvidence([...bands, makeSeries(40, rising, 9, 0)], 1, unknownBand, usual);
  expect(p).toBeLessThan(1e-6);
});

it('lets the level alone speak, where no drift was ever seen', () => {
  const high = weighEvidence([makeSeries(6, () => 120, 1)], 1, unknownBand, { mean: 120, sd: 1 });
  expect(high.levelSpeaks).toBe(true);
  expect(high.p).toBeLessThan(1e-6);
});

it('is less sure where errors go together', () => {
  const of = (independence: number) =>
    weighEvidence([makeSeries(30, (i) => 16 + Math.max(0, i - 20) / 2, 4)], independence, unknownBand, usual)
      .p;
  expect(of(0.25)).toBeGreaterThan(of(1));
});

it('asks no band of fewer than 8 points', () => {
  const steep = makeSeries(7, (i) => 16 + 10 * i, 1);
  expect(weighEvidence([steep], 1, unknownBand, usual)).toEqual(weighEvidence([], 1, unknownBand, usual));
});
