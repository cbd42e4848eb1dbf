import { expect, it } from 'vitest';
import { makePoint } from '#tests/helpers/make-stretch.ts';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { listFallsBack } from './list-falls-back.ts';

const healthy = { baselineRpm: 15, baselineSd: 5 };
const { normal } = seededRandom(3);
const make = (slips: readonly number[]) => slips.map((slip, i) => makePoint(i, slip + normal()));
const level = (n: number, slip: number) => new Array<number>(n).fill(slip);

it('runs as its note says', () => {
  expect(listFallsBack([], healthy)).toEqual([]);
});

it('finds every fall, whichever is the largest', () => {
  const slips = [
    ...level(8, 60),
    ...level(8, 18),
    ...level(8, 120),
    ...level(8, 16),
    ...level(8, 70),
    ...level(8, 17),
  ];
  expect(listFallsBack(make(slips), healthy)).toEqual([8, 24, 40]);
});

it('finds none where slip only rises', () => {
  expect(listFallsBack(make(Array.from({ length: 40 }, (_, i) => 18 + 3 * i)), healthy)).toEqual([]);
});
