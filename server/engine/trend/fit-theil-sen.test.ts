import { describe, expect, it } from 'vitest';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { inOrder, listEverySlope } from '#tests/helpers/slope-series.ts';
import { fitTheilSen } from './fit-theil-sen.ts';

it('runs as its note says: six slopes, 1, 1, 1, 13, 19, 37', () => {
  expect(fitTheilSen({ x: [1, 2, 3, 4], y: [1, 2, 3, 40] })).toMatchObject({ pairs: 6, slope: 7 });
});

it('is not moved by a glitch', () => {
  const x = Array.from({ length: 21 }, (_, i) => i);
  const y = x.map((one) => 3 + 2 * one);
  y[20] = 900;
  expect(fitTheilSen({ x, y })).toMatchObject({ slope: 2, intercept: 3, interceptJoint: 3 });
});

// 400 series: standard error 1.1 %.
it('covers the true slope about as often as it says', () => {
  const random = seededRandom(17);
  let covered = 0;
  for (let run = 0; run < 400; run++) {
    const x = Array.from({ length: 40 }, (_, i) => i);
    const y = x.map((one) => 0.2 * one + random.normal());
    const line = fitTheilSen({ x, y });
    if (!('declined' in line) && line.low <= 0.2 && line.high >= 0.2) covered++;
  }
  expect(covered / 400).toBeGreaterThan(0.915);
  expect(covered / 400).toBeLessThan(0.985);
});

describe('of 2,500 points, more than are listed', () => {
  const n = 2500;
  const random = seededRandom(23);
  const index = Array.from({ length: n }, (_, i) => i);
  it.each<[string, number[], number[]]>([
    ['random', index.map(() => random.normal()), index.map(() => random.normal())],
    ['tied in x and y', index.map((i) => i % 400), index.map(() => Math.round(3 * random.normal()))],
    ['nearly vertical', index.map(() => 5 + 1e-9 * random.uniform()), index.map(() => random.normal())],
    ['rising', index, index.map((i) => i ** 1.5)],
    ['constant', index, index.map(() => 2)],
  ])('slope and limits are those of the list of all slopes: %s', (_, x, y) => {
    const slopes = Float64Array.from(listEverySlope(inOrder(x, y))).sort();
    const line = fitTheilSen({ x, y, confidence: 0.9 });
    if ('declined' in line) throw new Error('declined');
    expect(line.pairs).toBe(slopes.length);
    const ties = (values: number[]) => {
      const sizes = new Map<number, number>();
      for (const one of values) sizes.set(one, (sizes.get(one) ?? 0) + 1);
      return [...sizes.values()].reduce((sum, t) => sum + t * (t - 1) * (2 * t + 5), 0);
    };
    const sigma = Math.sqrt((n * (n - 1) * (2 * n + 5) - ties(x) - ties(y)) / 18);
    // The normal quantile at 0.95 to 16 digits, from memory of any table: 1.644853626951472...
    const c = 1.6448536269514722 * sigma;
    const at = (rank: number) => slopes[Math.min(slopes.length - 1, Math.max(0, rank))] ?? Number.NaN;
    const middle = (slopes.length - 1) / 2;
    expect(line.slope).toBe((at(Math.floor(middle)) + at(Math.ceil(middle))) / 2);
    expect(line.low).toBe(at(Math.round((slopes.length - c) / 2) - 1));
    expect(line.high).toBe(at(Math.round((slopes.length + c) / 2)));
  });

  it('100,000 points take seconds, not hours', () => {
    const many = Array.from({ length: 100_000 }, (_, i) => i);
    const noise = seededRandom(2);
    const line = fitTheilSen({ x: many, y: many.map((i) => 0.001 * i + noise.normal()) });
    // Standard error of the slope, about that of least squares: sqrt(12 / n^3) = 1.1e-7.
    if ('declined' in line) throw new Error('declined');
    expect(Math.abs(line.slope - 0.001)).toBeLessThan(5e-7);
    expect(line.high - line.low).toBeGreaterThan(3e-7);
    expect(line.high - line.low).toBeLessThan(6e-7);
  }, 60_000);
});

it('interpolates the limits where asked', () => {
  const question = { x: [1, 2, 3, 4, 5, 6], y: [1, 3, 2, 5, 4, 8] };
  const [rounded, between] = [fitTheilSen(question), fitTheilSen({ ...question, limits: 'interpolated' })];
  if ('declined' in rounded || 'declined' in between) throw new Error('declined');
  expect(between.slope).toBe(rounded.slope);
  // By hand: 15 slopes, sigma^2 = 85 / 3, z sigma = 10.43, ranks 2.28 and 13.72 of -1, -1, 1/3, ..., 2, 3, 4.
  expect(between.low).toBeCloseTo(-1 + (0.2837 * 4) / 3, 3);
  expect(between.high).toBeCloseTo(2 + 0.7163, 3);
});

it('declines what cannot be had', () => {
  expect(fitTheilSen({ x: [1, 2], y: [1, 2] })).toMatchObject({ declined: { reason: 'too few points' } });
  expect(fitTheilSen({ x: [1, 1, 1], y: [1, 2, 3] })).toMatchObject({ declined: { reason: 'all x equal' } });
  expect(() => fitTheilSen({ x: [], y: [], confidence: 95 })).toThrow('fitTheilSen requires a confidence');
});
