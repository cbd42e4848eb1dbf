import { expect, it } from 'vitest';
import { listPlaces } from './list-places.ts';

it('runs as its note says', () => {
  expect(listPlaces({ days: [], candidates: [] }, [])).toEqual([]);
});

it('tells who is in each gap, and what is left of it', () => {
  const gaps = [
    { bay: 1, fromQuarter: 0, toQuarter: 36 },
    { bay: 2, fromQuarter: 20, toQuarter: 36 },
  ];
  const candidates = [8, 12].map((quarters) => ({ hold: false, quarters, values: [1] }));
  const days = [{ gaps, extra: { fromQuarter: 0, toQuarter: 36 } }];
  expect(listPlaces({ days, candidates }, [{ day: 0, gap: 0, candidates: [1, 0] }])).toEqual([
    { day: 0, gap: 0, left: 16, inside: [1, 0] },
    { day: 0, gap: 1, left: 16, inside: [] },
  ]);
});
