import { expect, it } from 'vitest';
import { makePoint } from '#tests/helpers/make-stretch.ts';
import { measurePace } from './measure-pace.ts';

const points = Array.from({ length: 100 }, (_, i) => makePoint(i, 20));
const now = points.at(-1)?.atMs ?? 0;

it('runs as its note says', () => {
  expect(measurePace([], 0)).toBeNull();
});

it('is that of the last 60 days alone', () => {
  // Stretches of 500 km in a day and a half; before the last 40 of them the vehicle stood for a year.
  const stood = points.map((point, i) =>
    i < 60 ? { ...point, atMs: point.atMs - 365 * 86_400_000 } : point,
  );
  expect(measurePace(stood, now)).toBeCloseTo(500 / 1.5, 6);
});

it('is not told of points within three days', () => {
  expect(measurePace(points.slice(0, 2), now)).toBeNull();
  expect(measurePace(points.slice(0, 3), now)).not.toBeNull();
});
