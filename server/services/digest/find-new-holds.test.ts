import { expect, it } from 'vitest';
import type { GradeChange } from '#db/queries/digest/grade-changes.ts';
import { findNewHolds } from './find-new-holds.ts';

const change = (key: number, day: number, before: string | null, after: string): GradeChange => ({
  key,
  unit: `V-${key}`,
  depot: null,
  at: new Date(Date.UTC(2026, 2, day)),
  before,
  after,
  why: null,
});

it('tells who was not on hold before and is at the end, the newest first, with the grade before', () => {
  const found = findNewHolds([
    change(1, 1, 'watch', 'hold'),
    change(2, 1, 'steady', 'watch'),
    change(2, 3, 'watch', 'hold'),
    change(3, 2, null, 'hold'),
  ]);
  expect(found.map(({ unit, before }) => [unit, before])).toEqual([
    ['V-2', 'steady'],
    ['V-3', null],
    ['V-1', 'watch'],
  ]);
});

it('leaves out who came off hold again, and who was on hold before and only went off for a while', () => {
  expect(
    findNewHolds([
      change(1, 1, 'watch', 'hold'),
      change(1, 2, 'hold', 'book'),
      change(2, 1, 'hold', 'book'),
      change(2, 2, 'book', 'hold'),
      change(3, 1, 'steady', 'book'),
    ]),
  ).toEqual([]);
});
