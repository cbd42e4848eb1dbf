import { expect, it } from 'vitest';
import { makePoint } from '#tests/helpers/make-stretch.ts';
import { makeFlatCase, makeWearCase } from '#tests/helpers/make-wear-case.ts';
import { drawFit } from './draw-fit.ts';

const points = Array.from({ length: 11 }, (_, i) => makePoint(i, 20));

it('runs as its note says', () => {
  const flatCase = makeFlatCase();
  expect(drawFit([flatCase], points, 150, null, 20).at(-1)?.[1]).toBe(20);
});

it('has the corners of onset and bend among its even steps, in order', () => {
  const kms = drawFit([makeWearCase()], points, 150, 101_111, 40).map(([km]) => km);
  // 41 steps from 100,250 to 105,250 km; the bend at 103,250 is one of the steps already.
  expect(kms).toHaveLength(43);
  expect(kms).toContain(101_111);
  expect(kms).toEqual([...kms].sort((a, b) => a - b));
});

it('follows the mean path until the last five points, and bends to the level over them', () => {
  // Linear from 20 rpm at 100,000 km, 13 rpm per 1,000 km: 62.25 rpm at 103,250 and 88.25 at 105,250.
  const line = new Map(drawFit([makeWearCase()], points, 150, null, 98.25));
  expect(line.get(103_250)).toBeCloseTo(62.25, 9);
  expect(line.get(104_250)).toBeCloseTo(75.25 + 5, 9);
  expect(line.get(105_250)).toBeCloseTo(98.25, 9);
});

it('gives the level at a lone point', () => {
  for (const [km, slip] of drawFit([makeFlatCase()], points.slice(0, 1), 150, null, 33))
    expect([km, slip]).toEqual([100_250, 33]);
});
