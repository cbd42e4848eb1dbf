import { expect, it } from 'vitest';
import { sayCover } from './say-cover.ts';

const weeks = (...pairs: [expected: number, bayDays: number][]) =>
  pairs.map(([expected, bay_days], i) => ({
    week: `2026-03-${String(2 + 7 * i).padStart(2, '0')}`,
    expected,
    bay_days,
    vehicles: [],
  }));

it('names the weeks in which bay days do not reach', () => {
  expect(sayCover({ weeks: weeks([1, 3], [4, 3], [2, 0]), overdue: [] })).toBe(
    'More vehicles without a day than free bay days in the weeks of 9 Mar, 16 Mar',
  );
});

it('counts those past the limit into the first week', () => {
  const overdue = [
    { vehicle: 'A', grade: 'hold' as const, seen_to: false },
    { vehicle: 'B', grade: 'hold' as const, seen_to: false },
  ];
  expect(sayCover({ weeks: weeks([0.5, 2], [1, 2]), overdue })).toBe(
    'More vehicles without a day than free bay days in the week of 2 Mar',
  );
});

it('leaves out those past it that have a day or were inspected, and says where all have', () => {
  const overdue = [{ vehicle: 'A', grade: 'hold' as const, seen_to: true }];
  expect(sayCover({ weeks: weeks([0.5, 0], [1, 2]), overdue })).toBe(
    'More vehicles without a day than free bay days in the week of 2 Mar',
  );
  expect(sayCover({ weeks: weeks([0.1, 0], [0.2, 0]), overdue })).toBe(
    'Every vehicle near its limit has a day, or was inspected',
  );
});

it('says so where bay days reach, and where nothing is near', () => {
  expect(sayCover({ weeks: weeks([1, 3], [2, 3]), overdue: [] })).toBe(
    'Free bay days cover every one of the next 2 weeks',
  );
  expect(sayCover({ weeks: weeks([0.1, 0], [0.2, 0]), overdue: [] })).toBe(
    'No limit is near in the next 2 weeks',
  );
});
