import { expect, it } from 'vitest';
import { findAskings } from './find-askings.ts';

const days = (n: number, changes: { km?: number[]; life?: number[] } = {}) => ({
  km: Array.from({ length: n }, (_, i) => 1_000 + 100 * i),
  life: Array.from({ length: n }, () => 1),
  ...changes,
});
const asks = (n: number, on: number[]) => Array.from({ length: n }, (_, i) => Number(on.includes(i)));
const spans = (n: number, on: number[]) =>
  findAskings(days(n), asks(n, on)).map(({ fromDay, lastDay, isOpen }) => [fromDay, lastDay, isOpen]);

it('runs as its note says', () => {
  expect(findAskings({ km: [100, 200], life: [1, 1] }, [0, 1])).toEqual([
    { life: 1, fromDay: 1, lastDay: 1, fromKm: 200, lastKm: 200, isOpen: true },
  ]);
});

it('goes on over 13 days off and begins anew after 14', () => {
  expect(spans(60, [2, 16])).toEqual([[2, 16, false]]);
  expect(spans(60, [2, 17])).toEqual([
    [2, 2, false],
    [17, 17, false],
  ]);
});

it('is open where its last day is within 14 days of the end', () => {
  expect(spans(30, [15])).toEqual([[15, 15, false]]);
  expect(spans(30, [16])).toEqual([[16, 16, true]]);
});

it('begins anew with a new converter, and not on a day without mileage', () => {
  const changed = days(4, { life: [1, 1, 2, 2], km: [1, 2, 3, Number.NaN] });
  expect(
    findAskings(changed, [1, 1, 1, 1]).map(({ life, fromDay, lastDay }) => [life, fromDay, lastDay]),
  ).toEqual([
    [1, 0, 1],
    [2, 2, 2],
  ]);
});
