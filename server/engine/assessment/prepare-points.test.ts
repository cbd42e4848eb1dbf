import { expect, it } from 'vitest';
import { makePoint } from '#tests/helpers/make-stretch.ts';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { preparePoints } from './prepare-points.ts';

it('runs as its note says', () => {
  expect(preparePoints([]).independence).toBe(1);
});

it('leaves calm points as they are, with their variance', () => {
  const { points } = preparePoints([0, 1, 2].map((i) => makePoint(i, 20 + i)));
  expect(points).toEqual([0, 1, 2].map((i) => ({ km: 100_250 + 500 * i, slipRpm: 20 + i, variance: 4 })));
});

// 20 standard errors away, bounded at 2.5: the variance is (20 / 2.5)^2 = 64 times as large.
it('raises the variance of a lone far point, so that its pull is bounded', () => {
  const slips = new Array<number>(15).fill(20).with(7, 60);
  const variances = preparePoints(slips.map((slip, i) => makePoint(i, slip))).points.map(
    (point) => point.variance,
  );
  expect(variances[7]).toBeCloseTo(4 * 64, 9);
  expect(variances.filter((variance) => variance === 4)).toHaveLength(14);
});

// r1 of white noise over 120 points is within 3 / sqrt(120) = 0.27 of 0: (1 - 0.27) / (1.27) = 0.57 at the least.
it('finds independent errors independent, and errors that go together less so', () => {
  const { normal } = seededRandom(6);
  let carried = 0;
  const white = Array.from({ length: 120 }, (_, i) => makePoint(i, 20 + 2 * normal()));
  const together = Array.from({ length: 120 }, (_, i) => {
    carried = 0.7 * carried + normal();
    return makePoint(i, 20 + 2 * carried);
  });
  expect(preparePoints(white).independence).toBeGreaterThan(0.57);
  expect(preparePoints(together).independence).toBeLessThan(0.5);
  expect(preparePoints(together).independence).toBeGreaterThanOrEqual(0.25);
});

it('does not take a rise for errors that go together', () => {
  const { normal } = seededRandom(7);
  const rising = Array.from({ length: 120 }, (_, i) => makePoint(i, 20 + 0.5 * i + 2 * normal()));
  expect(preparePoints(rising).independence).toBeGreaterThan(0.5);
});

it('counts fewer than 8 points as independent', () => {
  expect(preparePoints([0, 0, 9, 9, 0, 0, 9].map((slip, i) => makePoint(i, slip))).independence).toBe(1);
});

it('merges neighbours of a long life, and loses no information', () => {
  const long = Array.from({ length: 401 }, (_, i) => makePoint(i, 20));
  const { points } = preparePoints(long);
  expect(points.length).toBeLessThanOrEqual(160);
  expect(points.reduce((sum, point) => sum + 1 / point.variance, 0)).toBeCloseTo(401 / 4, 6);
  expect(points.map((point) => point.km)).toEqual(points.map((point) => point.km).sort((a, b) => a - b));
  expect(points[0]?.km).toBeCloseTo(100_250 + 1.5 * 500, 6);
});

it('merges the past of a long life and keeps its last stretches as they are', () => {
  const long = Array.from({ length: 300 }, (_, i) => makePoint(i, 20 + (i % 3)));
  const { points } = preparePoints(long);
  expect(points.length).toBeLessThanOrEqual(160);
  expect(points.slice(-24).map((point) => point.km)).toEqual(long.slice(-24).map((point) => point.km));
});
