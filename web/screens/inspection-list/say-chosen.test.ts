import { expect, it } from 'vitest';
import { sayBooked, sayChosen, sayNotClosed } from './say-chosen.ts';

const units = (count: number) => Array.from({ length: count }, (_, i) => `B-${i + 1}`);

it('names few and counts many', () => {
  expect([units(1), units(3), units(4), units(1000)].map(sayChosen)).toEqual([
    'B-1 chosen',
    'B-1, B-2, B-3 chosen',
    '4 vehicles chosen',
    '1,000 vehicles chosen',
  ]);
});

it('says which have a day already', () => {
  expect(sayBooked([], 4)).toBe('');
  expect(sayBooked(units(1), 1)).toBe('It has a day already and keeps it');
  expect(sayBooked(units(1), 9)).toBe('1 of them has a day already and keeps it (B-1)');
  expect(sayBooked(units(6), 9)).toBe(
    '6 of them have a day already and keep it (B-1, B-2, B-3, B-4 and 2 more)',
  );
  expect(sayBooked(units(3), 3)).toBe('All have a day already and keep it');
});

it('says which must be closed first', () => {
  expect(sayNotClosed(units(2), 5)).toBe(
    '2 of them have a booking that is over: close them, and they can get days (B-1, B-2)',
  );
  expect(sayNotClosed(units(1), 1)).toBe('It has a booking that is over: close it, and it can get a day');
});
