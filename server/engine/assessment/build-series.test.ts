import { describe, expect, it } from 'vitest';
import type { BandContext } from '#server/engine/platform/platform-context.ts';
import { unknownBand } from '#server/engine/platform/unknown-band.ts';
import { weekOf } from '#server/engine/platform/week-of.ts';
import type { StretchRow } from '#server/engine/stretches/stretch-row.ts';
import { makeStretch } from '#tests/helpers/make-stretch.ts';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { buildSeries } from './build-series.ts';

const reference = { dutyPct: 85, loadPct: 50, fluidC: 85 };
const make = (slips: readonly number[]) => slips.map((slip, i) => makeStretch(i, slip));
const noisy = (n: number, sd: number, seed = 3) => {
  const { normal } = seededRandom(seed);
  return make(Array.from({ length: n }, () => 20 + sd * normal()));
};

it('runs as its note says', () => {
  expect(buildSeries([], unknownBand(0), reference).points).toEqual([]);
});

it('leaves stretches at the reference point as they are, in order of life and km', () => {
  const rows = [...make([20, 21, 22]), makeStretch(0, 15, { life: 2, odometerKm: 90_000 })];
  const { points, band } = buildSeries(rows.toReversed(), unknownBand(-1), reference);
  expect(band).toBe(-1);
  expect(points.map(({ life, km, slipRpm }) => [life, km, slipRpm])).toEqual([
    [1, 100_250, 20],
    [1, 100_750, 21],
    [1, 101_250, 22],
    [2, 90_000, 15],
  ]);
  expect(points[0]).toMatchObject({ measuredRpm: 20, movementRpm: 0, dutyPct: 85, fluidC: 85, loadPct: 50 });
});

it('gives the same series in whatever order the stretches come', () => {
  const rows = noisy(20, 3);
  expect(buildSeries(rows.toReversed(), unknownBand(-1), reference)).toEqual(
    buildSeries(rows, unknownBand(-1), reference),
  );
});

it('carries a stretch to the reference point by the effects of its platform', () => {
  const context = { ...unknownBand(-1), effects: { healthy: [0.5, 0.2, -0.4], worn: [0, 0, 0] } } as const;
  const rows = [makeStretch(0, 30, { loadPct: 60, fluidC: 95, dutyPct: 80 })];
  const at = (band: number) =>
    buildSeries(
      rows,
      { ...context, band, effects: { healthy: [0.5, 0.2, -0.4], worn: [0, 0, 0] } },
      reference,
    ).points[0]?.slipRpm;
  expect(at(-1)).toBeCloseTo(30 - 5 - 2 - 2, 9);
  expect(at(2)).toBeCloseTo(30 - 5 - 2, 9);
});

describe('a signal that the feed lacks', () => {
  const context: BandContext = {
    ...unknownBand(-1),
    effects: { healthy: [0.5, 0.2, 0], worn: [0, 0, 0] },
  };
  const build = (rows: readonly StretchRow[]) => buildSeries(rows, context, reference).points;

  it('is not corrected for where no stretch has it', () => {
    const lean = makeStretch(0, 30, { loadPct: null, fluidC: null });
    expect(build([lean])[0]).toMatchObject({ slipRpm: 30, loadPct: null, fluidC: null });
    expect(build([{ ...lean, fluidC: 95 }])[0]?.slipRpm).toBeCloseTo(30 - 2, 9);
  });

  it('is corrected for by the usual one of the vehicle where a gateway gains it: no jump', () => {
    const rows = Array.from({ length: 12 }, (_, i) =>
      makeStretch(i, 30, i < 6 ? { loadPct: null, fluidC: null } : { loadPct: 40, fluidC: 75 }),
    );
    const points = build(rows);
    expect(points.map(({ loadPct, fluidC }) => [loadPct, fluidC])).toEqual(
      rows.map(({ loadPct, fluidC }) => [loadPct, fluidC]),
    );
    for (const point of points) expect(point.slipRpm).toBeCloseTo(30 + 5 + 2, 9);
  });
});

describe('common movement', () => {
  const rows = make(new Array<number>(12).fill(45));
  const weeks = [...new Set(rows.map((row) => weekOf((row.firstAtMs + row.lastAtMs) / 2)))];
  const movement = weeks.map((week, i) => ({ week, movementRpm: i === 0 ? 0 : 25, vehicles: 30 }));

  it('is taken out of the weeks it was in', () => {
    const { points } = buildSeries(rows, { ...unknownBand(-1), movement }, reference);
    for (const point of points) {
      expect(point.slipRpm).toBeCloseTo(45 - point.movementRpm, 9);
      expect(point.movementRpm).toBe(weekOf(point.atMs) === weeks[0] ? 0 : 25);
    }
  });

  it('stays beyond its last week, and is 0 before its first', () => {
    const known = movement.slice(1, 2);
    const { points } = buildSeries(rows, { ...unknownBand(-1), movement: known }, reference);
    expect(points[0]?.movementRpm).toBe(0);
    expect(points.at(-1)?.movementRpm).toBe(25);
  });
});

describe('standard error', () => {
  // Estimates from 39 differences are good to a fifth each; the mean of 60 of them to 3 %: 4 of those.
  const meanError = (sd: number) => {
    const seeds = Array.from({ length: 60 }, (_, i) => i + 1);
    const errors = seeds.map(
      (seed) => buildSeries(noisy(40, sd, seed), unknownBand(-1), reference).points[0]?.seRpm ?? 0,
    );
    return errors.reduce((sum, error) => sum + error, 0) / seeds.length;
  };

  // Within a stretch 4 / sqrt(6) = 1.63 rpm, and between them the floor of 1 rpm at the least.
  it('is that of the readings where stretches differ no more than their readings', () => {
    expect(meanError(1.63)).toBeGreaterThan(1.63);
    expect(meanError(1.63)).toBeLessThan(2.3);
  });

  it('takes in what differs from stretch to stretch', () => {
    expect(Math.abs(meanError(8) / 8 - 1)).toBeLessThan(0.12);
  });

  it('is wider for a stretch of few readings and for one far from the reference point', () => {
    const rows = noisy(20, 2);
    const se = (changes: object) =>
      buildSeries(rows.with(10, makeStretch(10, 20, changes)), unknownBand(-1), reference).points[10]
        ?.seRpm ?? 0;
    expect(se({ effective: 1 })).toBeGreaterThan(se({}));
    expect(se({ weight: 0.05 })).toBeGreaterThan(se({}));
  });

  it('does not take a rise for noise', () => {
    const rise = make(Array.from({ length: 40 }, (_, i) => 20 + 2 * i));
    expect(buildSeries(rise, unknownBand(-1), reference).points[20]?.seRpm).toBeLessThan(2.5);
  });
});

it('says how far slip had risen above the usual, from 0 to 300 rpm', () => {
  const slips = [
    ...new Array<number>(9).fill(5),
    ...new Array<number>(9).fill(65),
    ...new Array<number>(9).fill(900),
  ];
  const { rises } = buildSeries(make(slips), { ...unknownBand(-1), usualRpm: 15 }, reference);
  expect([rises[2], rises[13], rises[24]]).toEqual([0, 0.5, 3]);
});
