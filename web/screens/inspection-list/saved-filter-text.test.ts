import { expect, it } from 'vitest';
import { rankingQuery } from '#server/contract/ranking.ts';
import { readFilterText } from '#server/services/saved-filters/read-filter-text.ts';
import { keepChoice, readSaved, sameFilter, writeFilter } from './saved-filter-text.ts';

const search = {
  depot: 'Harrow Vale',
  lacks: 'platform' as const,
  grade: 'hold,book',
  q: 'B-1/2 & 3',
  booking: 'none' as const,
  changed: 'worse' as const,
  horizon_km: 8000,
  sort: 'drift' as const,
  open: 'B-1',
  chosen: 'B-1,B-2',
};

it('keeps the filter and leaves out what is open or ticked', () => {
  const { open: _, chosen: __, ...filter } = search;
  expect(readSaved(writeFilter(search))).toEqual(filter);
  expect(writeFilter({ open: 'B-1' })).toBe('');
});

it('is what the server takes, and what it gives back is the same filter', () => {
  const kept = readFilterText(writeFilter(search));
  expect(rankingQuery.safeParse(Object.fromEntries(new URLSearchParams(kept))).success).toBe(true);
  expect(sameFilter(readSaved(kept), search)).toBe(true);
});

it('keeps the ticks when a filter is chosen', () => {
  expect(keepChoice(search, { grade: 'steady' })).toEqual({ grade: 'steady', chosen: 'B-1,B-2' });
});

it('drops what no list knows', () => expect(readSaved('grade=hold&colour=red')).toEqual({ grade: 'hold' }));
