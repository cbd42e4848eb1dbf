import { expect, it } from 'vitest';
import type { BayPlan } from '#server/contract/bookings.ts';
import { layOutGrid } from './lay-out-grid.ts';
import { findStart, stepPlace } from './step-place.ts';

const dayOf = (day: string, bays: number) => ({
  day,
  bays,
  hours: bays === 0 ? null : { from: '07:00', to: '16:00' },
  note: '',
  bay_hours: bays * 9,
  booked_hours: 0,
});
const days = ['2026-03-03', '2026-03-04', '2026-03-05', '2026-03-06', '2026-03-07'];
const depotOf = (id: string, bays: number[]) => ({
  id,
  name: id,
  time_zone: 'UTC',
  today: '2026-03-04',
  bays: 2,
  days: days.map((day, i) => dayOf(day, bays[i] ?? 0)),
});
const plan: BayPlan = {
  from: '2026-03-03',
  to: '2026-03-07',
  now: '2026-03-04T08:00:00Z',
  depots: [depotOf('a', [2, 2, 0, 2, 0]), depotOf('b', [2, 0, 2, 1, 0])],
  bookings: [],
  put_off: [],
  past: [],
  uncovered_holds: [],
};
const grid = layOutGrid(plan, []);

it('keeps columns narrow in which nobody works', () => {
  expect(grid.days.map(({ narrow }) => narrow)).toEqual([false, false, false, false, true]);
});

it('goes through the days and skips closed ones and those that are over', () => {
  const from = { depot: 'a', day: '2026-03-04', bay: 2 };
  expect(stepPlace(grid, from, 'right')).toEqual({ depot: 'a', day: '2026-03-06', bay: 2 });
  expect(stepPlace(grid, from, 'left')).toBeNull();
  expect(stepPlace(grid, { ...from, day: '2026-03-06' }, 'left')).toEqual(from);
});

it('goes through the bays of all depots and skips bays that are not there', () => {
  const from = { depot: 'a', day: '2026-03-06', bay: 2 };
  expect(stepPlace(grid, from, 'down')).toEqual({ depot: 'b', day: '2026-03-06', bay: 1 });
  expect(stepPlace(grid, { depot: 'b', day: '2026-03-06', bay: 1 }, 'down')).toBeNull();
  expect(stepPlace(grid, { depot: 'b', day: '2026-03-06', bay: 1 }, 'up')).toEqual(from);
});

it('begins at the own depot, and elsewhere where that has no open day', () => {
  expect(findStart(grid, 'b')).toEqual({ depot: 'b', day: '2026-03-05', bay: 1 });
  expect(findStart(grid, 'gone')).toEqual({ depot: 'a', day: '2026-03-04', bay: 1 });
});
