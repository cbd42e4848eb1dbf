import { describe, expect, it } from 'vitest';
import { makeFlatCase, makeStepCase, makeWearCase } from '#tests/helpers/make-wear-case.ts';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { measureRaggedness } from './measure-raggedness.ts';
import type { WearPoint } from './wear-model.ts';

const NOISE_RPM = 2;
const STEP_KM = 125;
const CLUTCHES = 400;

/** 80 points over the 10,000 km of {@link makeWearCase}, 130 rpm up in jumps of a size (0: evenly), with noise. */
function makeRise(
  jumpRpm: number,
  { uniform, normal }: ReturnType<typeof seededRandom>,
  sd = NOISE_RPM,
): WearPoint[] {
  const perPoint = (130 * STEP_KM) / 10_000;
  let slip = 20;
  return Array.from({ length: 80 }, (_, i) => {
    slip += jumpRpm === 0 ? perPoint : jumpRpm * drawCount(perPoint / jumpRpm, uniform);
    return { km: 100_000 + STEP_KM * (i + 1), slipRpm: slip + sd * normal(), variance: sd ** 2 };
  });
}

/** A Poisson number by inversion, Devroye (1986), Non-Uniform Random Variate Generation, X.3.3 (from memory). */
function drawCount(mean: number, uniform: () => number): number {
  const u = uniform();
  let chance = Math.exp(-mean);
  let sum = chance;
  let count = 0;
  while (u > sum) {
    count++;
    chance *= mean / count;
    sum += chance;
  }
  return count;
}

/** Size over many clutches, pooled, with the standard error that the clutches' own scatter gives. */
function pool(jumpRpm: number, seed: number) {
  const random = seededRandom(seed);
  const all = Array.from({ length: CLUTCHES }, () => {
    const found = measureRaggedness([makeWearCase()], makeRise(jumpRpm, random), 150);
    return found ?? { squares: Number.NaN, riseRpm: Number.NaN };
  });
  const rise = all.reduce((sum, one) => sum + one.riseRpm, 0) / CLUTCHES;
  const mean = all.reduce((sum, one) => sum + one.squares, 0) / CLUTCHES;
  const variance = all.reduce((sum, one) => sum + (one.squares - mean) ** 2, 0) / (CLUTCHES - 1);
  return { sizeRpm: mean / rise, seRpm: Math.sqrt(variance / CLUTCHES) / rise };
}

it('runs as its note says', () => {
  const flatCase = makeFlatCase();
  const flatPoints = makeRise(0, seededRandom(1)).map((point) => ({ ...point, slipRpm: 20 }));
  expect(measureRaggedness([flatCase], flatPoints, 150)).toBeNull();
});

// Blocks of four points, an independent increment of variance s^2 = J * rise between points. The difference of two
// block means sums seven increments by 1, 2, 3, 4, 3, 2, 1 quarters: 44 / 16 s^2. The scatter within a block takes
// 2.5 / 4 / 3 s^2 off for each of the two: its mean square is the sum over pairs of |i - j| s^2, 10, over 4 * 4.
// 44/16 - 2 * 2.5/12 = 7/3, of 4 s^2 that came from block to block: 7/12 of the size is seen.
describe.each([4, 12, 30])('a rise in jumps of %d rpm', (jumpRpm) => {
  it('shows 7/12 of their size, free of noise', () => {
    const { sizeRpm, seRpm } = pool(jumpRpm, 100 + jumpRpm);
    expect(seRpm).toBeLessThan(0.05 * jumpRpm);
    expect(Math.abs(sizeRpm - (7 / 12) * jumpRpm)).toBeLessThan(4 * seRpm);
  });
});

it('shows nothing of a smooth rise under white noise', () => {
  const { sizeRpm, seRpm } = pool(0, 7);
  expect(seRpm).toBeLessThan(0.02);
  expect(Math.abs(sizeRpm)).toBeLessThan(4 * seRpm);
});

// By hand: residuals -3, 5, 0 from the last block back, no scatter within: 8^2 + 5^2. Blocks lie 4,000 km apart at
// 6.5 rpm per 1,000 km: 52 rpm from the first to the last of three. The thirteenth point from the end is in no block.
it('sums the squared steps between blocks of four, from the last point back', () => {
  const growing = makeWearCase({ spanKm: 20_000 });
  const residuals = [99, ...[0, 5, -3].flatMap((off) => [off, off, off, off])];
  const points = residuals.map((off, i) => {
    const km = 100_500 + 1_000 * i;
    return { km, slipRpm: 20 + (130 * (km - 100_000)) / 20_000 + off, variance: 1 };
  });
  const found = measureRaggedness([growing], points, 150);
  expect(found?.squares).toBeCloseTo(64 + 25, 6);
  expect(found?.riseRpm).toBeCloseTo(8 * 6.5, 9);
});

it('goes by the likeliest drifting case, and by the points after its onset', () => {
  const points = makeRise(12, seededRandom(3));
  const best = makeWearCase({ weight: 0.3 });
  const alone = measureRaggedness([best], points, 150);
  const before = [10, 9, 8, 7].map((i) => ({ km: 100_000 - 125 * i, slipRpm: 500, variance: 4 }));
  const others = [makeStepCase({ weight: 0.5 }), makeWearCase({ spanKm: 30_000, weight: 0.2 }), best];
  expect(measureRaggedness(others, [...before, ...points], 150)).toEqual(alone);
});

it('has nothing to say of fewer than three blocks', () => {
  const points = makeRise(12, seededRandom(3));
  expect(measureRaggedness([makeWearCase()], points.slice(0, 11), 150)).toBeNull();
  expect(measureRaggedness([makeWearCase()], points.slice(0, 12), 150)).not.toBeNull();
});
