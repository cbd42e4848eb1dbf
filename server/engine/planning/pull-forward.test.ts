import { expect, it } from 'vitest';
import { pullForward } from './pull-forward.ts';

const days = [0, 1, 2].map((day) => ({
  gaps: [{ bay: 1, fromQuarter: 96 * day, toQuarter: 96 * day + 16 }],
  extra: { fromQuarter: 96 * day, toQuarter: 96 * day + 16 },
}));

it('runs as its note says', () => {
  expect(pullForward({ days: [], candidates: [] }, [])).toEqual([]);
});

it('moves to the earliest day with room that is worth as much, those on hold first', () => {
  const candidates = [
    { hold: false, quarters: 8, values: [70, 70, 70] },
    { hold: true, quarters: 12, values: [-180, -180, -180] },
    { hold: false, quarters: 4, values: [null, 30, 30] },
  ];
  const moved = pullForward({ days, candidates }, [
    { day: 2, gap: 0, candidates: [0, 2] },
    { day: 1, gap: 0, candidates: [1] },
  ]);
  expect(moved).toEqual([
    { day: 0, gap: 0, candidates: [1] },
    { day: 1, gap: 0, candidates: [0, 2] },
  ]);
});

it('stays where an earlier day is worth less', () => {
  const candidates = [{ hold: false, quarters: 8, values: [60, 70, 80] }];
  const begun = [{ day: 2, gap: 0, candidates: [0] }];
  expect(pullForward({ days, candidates }, begun)).toEqual(begun);
});
