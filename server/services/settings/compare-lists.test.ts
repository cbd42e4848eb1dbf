import { expect, it } from 'vitest';
import type { Grade } from '#server/contract/words.ts';
import { compareLists } from './compare-lists.ts';

const listed = (vehicle: number, rank: number, grade: Grade, ranked = true) => ({
  vehicle,
  unit: `V-${vehicle}`,
  depot: 'north',
  rank,
  grade,
  ranked,
});

it('counts grades before and after, and names who moves: another grade first, then the longest way', () => {
  const before = [
    listed(1, 1, 'hold'),
    listed(2, 2, 'book'),
    listed(3, 3, 'watch'),
    listed(4, 4, 'steady'),
    listed(5, 5, 'steady'),
  ];
  const after = [
    { vehicle: 4, rank: 1, grade: 'steady' as const },
    { vehicle: 1, rank: 2, grade: 'hold' as const },
    { vehicle: 2, rank: 3, grade: 'hold' as const },
    { vehicle: 3, rank: 4, grade: 'watch' as const },
    { vehicle: 5, rank: 5, grade: 'steady' as const },
  ];
  const { moved, ...rest } = compareLists(before, after);
  expect(rest).toEqual({
    vehicles: 5,
    before: { hold: 1, book: 1, watch: 1, steady: 2, unknown: 0 },
    after: { hold: 2, book: 0, watch: 1, steady: 2, unknown: 0 },
    regraded: 1,
    reranked: 4,
  });
  expect(moved.map(({ vehicle }) => vehicle)).toEqual(['V-2', 'V-4', 'V-1', 'V-3']);
  expect(moved[0]).toEqual({
    vehicle: 'V-2',
    depot: 'north',
    grade_before: 'book',
    grade: 'hold',
    rank_before: 2,
    rank: 3,
  });
});

it('moves no vehicle that had no place yet, and counts it', () => {
  const { moved, before, after } = compareLists(
    [listed(1, 2_147_483_647, 'unknown', false)],
    [{ vehicle: 1, rank: 1, grade: 'hold' }],
  );
  expect([moved, before.unknown, after.hold]).toEqual([[], 1, 1]);
});

it('names fifty at most, and counts all', () => {
  const numbers = Array.from({ length: 120 }, (_, i) => i + 1);
  const { moved, reranked } = compareLists(
    numbers.map((n) => listed(n, n, 'steady')),
    numbers.map((n) => ({ vehicle: n, rank: 121 - n, grade: 'steady' as const })),
  );
  expect([moved.length, reranked]).toEqual([50, 120]);
});
