import { describe, expect, it } from 'vitest';
import { rankingQuery } from '#server/contract/ranking.ts';
import {
  joinCompared,
  joinGrades,
  parseListSearch,
  patchSearch,
  searchBounds,
  splitCompared,
  splitGrades,
} from './list-search.ts';

describe('an address of the list', () => {
  it('gives back all that it says', () => {
    const raw = {
      depot: 'mossgate',
      platform: 'morvelt',
      grade: 'book,hold',
      q: ' B-1 ',
      horizon_km: '3000',
      sort: 'drift',
      open: 'B-1207',
      compare: 'A,B',
    };
    expect(parseListSearch(raw)).toEqual({ ...raw, grade: 'hold,book', q: 'B-1', horizon_km: 3000 });
  });

  it.each([
    ['a grade that does not exist', { grade: 'urgent' }],
    ['a horizon below the smallest', { horizon_km: '5' }],
    ['a horizon that is no number', { horizon_km: 'far' }],
    ['an order that does not exist', { sort: 'colour' }],
    ['the order that is the usual one', { sort: 'rank' }],
    ['empty values', { q: '', depot: '', open: '', compare: '' }],
    ['a search that is too long', { q: 'x'.repeat(101) }],
  ])('drops %s and stays usable', (_what, raw) => expect(parseListSearch(raw)).toEqual({}));

  it('keeps the sound parts beside a broken one', () => {
    expect(parseListSearch({ q: '417', horizon_km: 'far' })).toEqual({ q: '417' });
  });

  it('loses a part that is changed to nothing', () => {
    expect(patchSearch({ q: 'B', open: 'B-1' }, { q: undefined })).toEqual({ open: 'B-1' });
  });
});

describe('the bounds of an address', () => {
  const { qLength, leastHorizonKm, mostHorizonKm } = searchBounds;
  const isTaken = (query: object) => rankingQuery.safeParse(query).success;

  it('are those of the contract', () => {
    expect([qLength, qLength + 1].map((n) => isTaken({ q: 'x'.repeat(n) }))).toEqual([true, false]);
    expect(
      [leastHorizonKm - 1, leastHorizonKm, mostHorizonKm, mostHorizonKm + 1].map((horizon_km) =>
        isTaken({ horizon_km }),
      ),
    ).toEqual([false, true, true, false]);
  });

  it('hold for a vehicle number that looks like a horizon', () => {
    expect(parseListSearch({ horizon_km: '' })).toEqual({});
    expect(parseListSearch({ horizon_km: 'Infinity' })).toEqual({});
  });
});

describe('grades in an address', () => {
  it('stand in the order of urgency, once', () =>
    expect(splitGrades('steady,hold,hold,none')).toEqual(['hold', 'steady']));
  it('do not stand there where all or none are chosen', () => {
    expect(joinGrades([])).toBe(undefined);
    expect(joinGrades(splitGrades('hold,book,watch,steady,unknown'))).toBe(undefined);
  });
});

describe('compared vehicles in an address', () => {
  it('keep commas of their own', () => {
    expect(splitCompared(joinCompared(['A,1', 'B/2', '100%']))).toEqual(['A,1', 'B/2', '100%']);
  });
  it('are three at most, each once', () => expect(splitCompared('a,b,a,c,d')).toEqual(['a', 'b', 'c']));
  it('survive a broken escape', () => expect(splitCompared('100%,b')).toEqual(['100%', 'b']));
});
