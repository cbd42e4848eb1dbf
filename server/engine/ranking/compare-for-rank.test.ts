import { expect, it } from 'vitest';
import { compareForRank } from './compare-for-rank.ts';

const terms = (vehicle: number, costAvoided: number, excessRpm = 0) => ({ vehicle, costAvoided, excessRpm });

it('runs as its note says', () => {
  expect(compareForRank(terms(2, 9), terms(1, 5))).toBe(-4);
});

it('asks for cost before slip, and for slip before the number', () => {
  const vehicles = [terms(4, -5, 90), terms(3, 7, 2), terms(2, 7, 2), terms(1, 7, 1), terms(5, 8, 0)];
  expect(vehicles.toSorted(compareForRank).map(({ vehicle }) => vehicle)).toEqual([5, 2, 3, 1, 4]);
});

it('is zero for a vehicle against itself alone', () => {
  expect(compareForRank(terms(1, 3, 2), terms(1, 3, 2))).toBe(0);
});
