import { expect, it } from 'vitest';
import { joinSpellings } from './join-spellings.ts';

it('counts the spellings of one code together, from the first sight to the last', () => {
  expect(
    joinSpellings([
      { code: 'p0741', n: 2, first: '2026-01-03T00:00:00Z', last: '2026-01-09T00:00:00Z' },
      { code: 'P0300', n: 1, first: '2026-01-02T00:00:00Z', last: '2026-01-02T00:00:00Z' },
      { code: 'P0741', n: 3, first: '2026-01-01T00:00:00Z', last: '2026-01-05T00:00:00Z' },
    ]),
  ).toEqual([
    { code: 'P0741', n: 5, first: '2026-01-01T00:00:00Z', last: '2026-01-09T00:00:00Z' },
    { code: 'P0300', n: 1, first: '2026-01-02T00:00:00Z', last: '2026-01-02T00:00:00Z' },
  ]);
});

it('keeps what nobody can spell as it came', () => {
  const odd = { code: '0741', n: 1, first: '2026-01-02T00:00:00Z', last: '2026-01-02T00:00:00Z' };
  expect(joinSpellings([odd])).toEqual([odd]);
});
