import { expect, it } from 'vitest';
import { addDays, countDays, findMonday, isDay, listDays } from './days.ts';

it('counts over months, leap days and the changes of summer time', () => {
  expect([addDays('2028-02-28', 1), addDays('2026-12-31', 1), addDays('2026-03-29', -1)]).toEqual([
    '2028-02-29',
    '2027-01-01',
    '2026-03-28',
  ]);
  expect(countDays('2026-03-01', '2026-04-01')).toBe(31);
  expect(listDays('2026-10-24', 3)).toEqual(['2026-10-24', '2026-10-25', '2026-10-26']);
});

it('finds the Monday of a week, of Sunday too', () => {
  expect([findMonday('2026-03-02'), findMonday('2026-03-04'), findMonday('2026-03-08')]).toEqual([
    '2026-03-02',
    '2026-03-02',
    '2026-03-02',
  ]);
});

it('takes days of the calendar alone', () => {
  expect([isDay('2026-02-28'), isDay('2026-02-29'), isDay('2026-3-1'), isDay(20260301)]).toEqual([
    true,
    false,
    false,
    false,
  ]);
});
