import { expect, it } from 'vitest';
import type { Grade } from '#server/contract/words.ts';
import { findChange, sayChange } from './say-change.ts';

const row = (rank: number, grade: Grade, before: [number | null, Grade] | null) => ({
  rank,
  grade,
  week_ago:
    before === null
      ? null
      : {
          rank: before[0],
          grade: before[1],
          reference_slip_rpm: null,
          chance_within_horizon: null,
          km_p50: null,
        },
});

it.each<[ReturnType<typeof row>, string]>([
  [row(3, 'book', [15, 'book']), 'up 12 places since a week ago'],
  [row(4, 'book', [3, 'book']), 'down 1 place since a week ago'],
  [row(3, 'book', [40, 'watch']), 'up 37 places since a week ago, was watch'],
  [row(9, 'hold', [9, 'book']), 'was book a week ago'],
  [row(1, 'hold', [1, 'hold']), ''],
  [row(1, 'hold', null), ''],
  [row(1, 'hold', [null, 'hold']), ''],
  [row(1, 'hold', [null, 'book']), 'was book a week ago'],
])('says what has changed: %o', (one, words) => expect(sayChange(findChange(one))).toBe(words));

it('leaves out the places of what does not drift: they move with every other vehicle', () => {
  expect(findChange(row(120, 'steady', [90, 'steady']))).toEqual({ places: 0, was: null });
  expect(findChange(row(120, 'unknown', [90, 'unknown']))).toEqual({ places: 0, was: null });
  expect(findChange(row(120, 'steady', [9, 'book']))).toEqual({ places: -111, was: 'book' });
});
