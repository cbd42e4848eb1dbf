import { expect, it } from 'vitest';
import { weekOf } from '#server/engine/platform/week-of.ts';
import { makeStretch } from '#tests/helpers/make-stretch.ts';
import { measureRises } from './measure-rises.ts';

const make = (slips: readonly number[]) => slips.map((slip, i) => makeStretch(i, slip));
const nine = (slip: number) => new Array<number>(9).fill(slip);

it('runs as its note says', () => {
  expect(measureRises([], [], 15).rises).toEqual([]);
});

it('gives the middle of each stretch, and slip as it was measured where nothing moved', () => {
  const rows = make([20, 21, 22]);
  const { atMs, movementRpm, slipRpm } = measureRises(rows, [], 15);
  expect(atMs).toEqual(rows.map((row) => (row.firstAtMs + row.lastAtMs) / 2));
  expect(movementRpm).toEqual([0, 0, 0]);
  expect(slipRpm).toEqual([20, 21, 22]);
});

// By hand: (5 - 15) / 100 is held at 0, (65 - 15) / 100 = 0.5, (900 - 15) / 100 is held at 3.
it('counts from the usual slip in 100 rpm, from 0 to 3', () => {
  const { rises } = measureRises(make([...nine(5), ...nine(65), ...nine(900)]), [], 15);
  expect([rises[2], rises[13], rises[24]]).toEqual([0, 0.5, 3]);
});

// A median of nine: four of them far off leave it alone, five take it; three of seven or five of eleven would not.
it('is not moved by a few stretches that were driven hard', () => {
  const riseWith = (hard: readonly number[]) => {
    const slips = Array.from({ length: 11 }, (_, i) => (hard.includes(i) ? 200 : 35));
    return measureRises(make(slips), [], 15).rises[5];
  };
  expect([riseWith([]), riseWith([1, 2, 8, 9]), riseWith([1, 2, 7, 8, 9])]).toEqual([0.2, 0.2, 1.85]);
});

// Stretches lie a day and a half apart: 20 of them go on into a fifth week.
it('takes the common movement of its week off, of the last week beyond it, and none before the first', () => {
  const rows = make(new Array<number>(20).fill(60));
  const weeks = rows.map((row) => weekOf((row.firstAtMs + row.lastAtMs) / 2));
  const [first = 0] = weeks;
  const second = { week: first + 1, movementRpm: 15, vehicles: 30 };
  const third = { week: first + 2, movementRpm: 25, vehicles: 30 };
  expect(weeks.at(-1)).toBeGreaterThan(third.week);
  const { movementRpm, slipRpm } = measureRises(rows, [second, third], 15);
  const moved = weeks.map((week) => (week === first ? 0 : week === second.week ? 15 : 25));
  expect(movementRpm).toEqual(moved);
  expect(slipRpm).toEqual(moved.map((rpm) => 60 - rpm));
});

it('counts no common movement as a rise', () => {
  const rows = make(new Array<number>(12).fill(40));
  const movement = [{ week: weekOf(rows[0]?.firstAtMs ?? 0), movementRpm: 25, vehicles: 30 }];
  expect(measureRises(rows, movement, 15).rises).toEqual(new Array<number>(12).fill(0));
});
