import { describe, expect, it } from 'vitest';
import { mostChosen, rankingQuery } from '#server/contract/ranking.ts';
import {
  chooseUnits,
  chosenOf,
  filterOf,
  joinGrades,
  parseListSearch,
  patchSearch,
  searchBounds,
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
      booking: 'put_off',
      changed: 'worse',
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
    ['a booking that does not exist', { booking: 'maybe' }],
    ['a change that does not exist', { changed: 'toString' }],
    ['a lack that does not exist', { lacks: 'driver' }],
    ['the order that is the usual one', { sort: 'rank' }],
    ['empty values', { q: '', depot: '', open: '', compare: '', chosen: '' }],
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

describe('a list without depot or platform', () => {
  it('has none of those that are asked for', () => {
    expect(parseListSearch({ lacks: 'both', depot: 'a', platform: 'b' })).toEqual({ lacks: 'both' });
    expect(parseListSearch({ lacks: 'depot', depot: 'a', platform: 'b' })).toEqual({
      lacks: 'depot',
      platform: 'b',
    });
  });
});

describe('ticked vehicles in an address', () => {
  const many = (count: number) => Array.from({ length: count }, (_, i) => `B-${i}`);

  it('keep commas of their own', () => {
    const units = ['A,1', 'B/2', '100%'];
    expect(chosenOf(chooseUnits({}, units, false))).toEqual(units);
    expect(chosenOf(chooseUnits({}, units, true))).toEqual(units);
  });

  it('stand side by side where two or three are compared, and as a choice otherwise', () => {
    expect(chooseUnits({ q: 'B' }, ['a', 'b'], true)).toEqual({ q: 'B', compare: 'a,b' });
    expect(chooseUnits({ compare: 'a,b' }, ['a', 'b', 'c', 'd'], true)).toEqual({ chosen: 'a,b,c,d' });
    expect(chooseUnits({ compare: 'a,b' }, ['a'], true)).toEqual({ chosen: 'a' });
    expect(chooseUnits({ compare: 'a,b' }, ['a', 'b'], false)).toEqual({ chosen: 'a,b' });
    expect(chooseUnits({ chosen: 'a' }, [], false)).toEqual({});
  });

  it('are compared by three at most, and one that is compared alone is only ticked', () => {
    expect(parseListSearch({ compare: 'a,b,a,c,d' })).toEqual({ compare: 'a,b,c' });
    expect(parseListSearch({ compare: 'a', chosen: '' })).toEqual({ chosen: 'a' });
    expect(parseListSearch({ compare: 'a,b', chosen: 'c' })).toEqual({ compare: 'a,b' });
  });

  it('are a thousand at most', () => {
    expect(chosenOf(chooseUnits({}, many(1200), false))).toEqual(many(1000));
    expect(searchBounds.mostChosen).toBe(mostChosen);
  });

  it('survive a broken escape', () => expect(chosenOf({ chosen: '100%,b' })).toEqual(['100%', 'b']));
});

it('takes what is open and ticked out of a filter', () => {
  expect(filterOf({ q: 'B', open: 'B-1', chosen: 'B-1', sort: 'slip' })).toEqual({ q: 'B', sort: 'slip' });
});
