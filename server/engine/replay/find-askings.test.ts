import { describe, expect, it } from 'vitest';
import { findAskings } from './find-askings.ts';
import type { LifeCourse } from './replay-model.ts';

const days = (n: number, changes: { km?: number[]; life?: number[] } = {}) => ({
  km: Array.from({ length: n }, (_, i) => 1_000 + 100 * i),
  life: Array.from({ length: n }, () => 1),
  ...changes,
});
const asks = (n: number, on: number[]) => Array.from({ length: n }, (_, i) => Number(on.includes(i)));
const dayEndMs = Array.from({ length: 60 }, (_, i) => i + 1);
/** Nothing came, nobody looked, and nobody drives so far. */
const quiet = { courses: [], dayEndMs, horizonKm: 50_000 };
const spans = (n: number, on: number[]) =>
  findAskings(days(n), asks(n, on), quiet).map(({ fromDay, lastDay, isOpen }) => [fromDay, lastDay, isOpen]);

it('runs as its note says', () => {
  expect(findAskings({ km: [100, 200], life: [1, 1] }, [0, 1], quiet)).toEqual([
    { life: 1, fromDay: 1, lastDay: 1, fromKm: 200, lastKm: 200, isOpen: true, nextDay: null },
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
    findAskings(changed, [1, 1, 1, 1], quiet).map(({ life, fromDay, lastDay }) => [life, fromDay, lastDay]),
  ).toEqual([
    [1, 0, 1],
    [2, 2, 2],
  ]);
});

describe('an asking that stands', () => {
  const course: LifeCourse = { life: 1, event: null, lastKm: 90_000, risenShare: 0, clearedMs: [] };
  /** All of 40 days asked for, 100 km a day, a horizon of 1,000 km. */
  const standing = (changes: Partial<LifeCourse>, on = asks(40, [...Array(40).keys()])) =>
    findAskings(days(40), on, { courses: [{ ...course, ...changes }], dayEndMs, horizonKm: 1_000 }).map(
      ({ fromDay, lastDay, nextDay, isOpen }) => [fromDay, lastDay, nextDay, isOpen],
    );

  it('is another one after each horizon driven', () => {
    expect(standing({})).toEqual([
      [0, 9, 10, false],
      [10, 19, 20, false],
      [20, 29, 30, false],
      [30, 39, null, true],
    ]);
  });

  it('is another one once a shop has found no fault, if it is still asked for then', () => {
    expect(standing({ clearedMs: [4.5] }, asks(40, [0, 3, 4, 5, 7]))).toEqual([
      [0, 3, 4, false],
      [4, 7, null, false],
    ]);
    expect(standing({ clearedMs: [4.5] }, asks(40, [0, 3]))).toEqual([[0, 3, null, false]]);
  });

  it('stays one after what it was asked for has come', () => {
    const event = { what: 'reached_limit' as const, mode: null, km: 2_450, atMs: 15.5, knownMs: 20 };
    expect(standing({ event })).toEqual([
      [0, 9, 10, false],
      [10, 39, null, true],
    ]);
  });
});
