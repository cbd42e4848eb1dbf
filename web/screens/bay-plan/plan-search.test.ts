import { expect, it } from 'vitest';
import { parseBayPlanSearch, patchBayPlanSearch, readPlace, writePlace } from './plan-search.ts';

it('takes what is sound from an address and drops the rest', () => {
  expect(
    parseBayPlanSearch({
      view: 'day',
      depot: 'harrow-vale',
      from: '2026-03-02',
      days: '28',
      day: '2026-03-05',
      open: '12',
      beside: 'plan',
    }),
  ).toEqual({
    view: 'day',
    depot: 'harrow-vale',
    from: '2026-03-02',
    days: 28,
    day: '2026-03-05',
    open: 12,
    beside: 'plan',
  });
  expect(
    parseBayPlanSearch({
      view: 'week',
      depot: ' ',
      from: '2026-02-30',
      days: '99',
      open: '-1',
      place: '2026-03-05,0,x',
      beside: 'x',
    }),
  ).toEqual({});
});

it('keeps a unit that looks like a number as it is', () => {
  expect(parseBayPlanSearch({ book: '00417' })).toEqual({ book: '00417' });
});

it('opens one thing beside the grid at a time, and keeps the days', () => {
  expect(patchBayPlanSearch({ from: '2026-03-02', open: 12 }, { book: 'B-1' })).toEqual({
    from: '2026-03-02',
    book: 'B-1',
  });
  expect(patchBayPlanSearch({ open: 12 }, { from: '2026-03-09' })).toEqual({ from: '2026-03-09', open: 12 });
});

it('opens the proposal for chosen vehicles, and closes it for what is opened instead', () => {
  expect(parseBayPlanSearch({ propose: 'B-1,00417' })).toEqual({ propose: 'B-1,00417' });
  expect(parseBayPlanSearch({ propose: '' })).toEqual({});
  expect(patchBayPlanSearch({ propose: 'B-1', from: '2026-03-02' }, { beside: 'plan' })).toEqual({
    from: '2026-03-02',
    beside: 'plan',
  });
});

it('writes a place that it can read again, whatever the depot is called', () => {
  const place = { depot: 'North / yard 2', day: '2026-03-05', bay: 3 };
  expect(readPlace(writePlace(place))).toEqual(place);
  expect(readPlace('2026-03-05,three,x')).toBeNull();
});
