import fc from 'fast-check';
import { expect, it } from 'vitest';
import { anySeries, listEverySlope, wholeSeries } from '#tests/helpers/slope-series.ts';
import { roundSlopeAtRank } from './round-slope-at-rank.ts';

it('runs as its note says', () => {
  const points = { x: Float64Array.of(0, 3, 6), y: Float64Array.of(0, 1, 2) };
  expect(roundSlopeAtRank(points, 1, 0.3)).toBe(1 / 3);
});

const start = fc.constantFrom(-3, -0.1, 1e-9, 0.4, 7);

it('gives the slope of whole numbers to the last bit, from wherever it starts', () => {
  fc.assert(
    fc.property(wholeSeries, fc.nat(), start, (points, seed, from) => {
      const slopes = Float64Array.from(listEverySlope(points)).sort();
      const rank = seed % slopes.length;
      expect(roundSlopeAtRank(points, rank, from) - (slopes[rank] ?? Number.NaN)).toBe(0);
    }),
    { seed: 14, numRuns: 300 },
  );
});

it('gives any other slope within 2 units in the last place', () => {
  fc.assert(
    fc.property(anySeries, fc.nat(), start, (points, seed, from) => {
      const slopes = Float64Array.from(listEverySlope(points)).sort();
      const rank = seed % slopes.length;
      const wanted = slopes[rank] ?? Number.NaN;
      const off = Math.abs(roundSlopeAtRank(points, rank, from) - wanted);
      expect(off).toBeLessThanOrEqual(2 * 2 ** -52 * Math.abs(wanted));
    }),
    { seed: 15, numRuns: 300 },
  );
});
