import { expect, it } from 'vitest';
import { bandOf } from './band-of.ts';

const edges = [40, 55, 70, 85, 100];

it('runs as its note says', () => {
  expect(bandOf(85, edges)).toBe(3);
});

it('puts a lower edge into its band, and the highest edge into the last', () => {
  expect([40, 54.999, 55, 69.999, 70, 84.999, 100].map((duty) => bandOf(duty, edges))).toEqual([
    0, 0, 1, 1, 2, 2, 3,
  ]);
});

it('is null outside all bands', () => {
  expect(bandOf(39.999, edges)).toBeNull();
  expect(bandOf(100.001, edges)).toBeNull();
  expect(bandOf(Number.NaN, edges)).toBeNull();
  expect(bandOf(50, [40])).toBeNull();
  expect(bandOf(50, [])).toBeNull();
});
