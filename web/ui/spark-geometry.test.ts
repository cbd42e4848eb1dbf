import { expect, it } from 'vitest';
import { shapeSpark } from './spark-geometry.ts';

it('puts the last kilometre at the right end and the limit at the same height for every vehicle', () => {
  const low = shapeSpark(
    [
      [99_000, 10],
      [100_000, 75],
    ],
    150,
    100,
    23,
  );
  const high = shapeSpark(
    [
      [9_000, 10],
      [10_000, 85],
    ],
    170,
    100,
    23,
  );
  expect(low.end).toEqual({ x: 100, y: 13 });
  expect(high.end).toEqual(low.end);
  expect(high.limitY).toBe(low.limitY);
});

it('begins where the last 10,000 km begin', () => {
  expect(
    shapeSpark(
      [
        [80_000, 40],
        [90_000, 50],
        [90_500, 0],
        [100_000, 0],
      ],
      150,
      100,
      23,
    ).path,
  ).toMatch(/^M0 /);
});

it('leaves a hole where readings are missing', () => {
  const { path } = shapeSpark(
    [
      [90_000, 0],
      [90_500, 0],
      [95_000, 0],
      [95_500, 0],
    ],
    150,
    100,
    23,
  );
  expect(path.match(/M/g)).toHaveLength(2);
});

it('stays in its box where slip is far above the limit or below zero', () => {
  const { path } = shapeSpark(
    [
      [1000, 900],
      [1500, -4],
    ],
    150,
    100,
    23,
  );
  expect(path).toBe('M95 0L100 23');
});

it('has no end without points', () =>
  expect(shapeSpark([], 150, 100, 23)).toMatchObject({ path: '', end: null }));
