import { expect, it } from 'vitest';
import { parseDigestSearch } from './digest-search.ts';

it('keeps a day and a depot, and drops what is neither', () => {
  expect(parseDigestSearch({ week: '2026-02-16', depot: ' north ' })).toEqual({
    week: '2026-02-16',
    depot: 'north',
  });
  for (const week of ['2026-02-30', '2026-2-1', 'next', '', 7, undefined, '2026-02-16T00:00:00Z'])
    expect(parseDigestSearch({ week, depot: ' ' })).toEqual({});
});
