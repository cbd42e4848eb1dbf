import { expect, it } from 'vitest';
import { formatDate, formatUtcDate, formatWeek } from './format-date.ts';

it('names a day with its month in letters, so that no one swaps them', () => {
  expect(formatDate('2026-03-04T12:00:00Z')).toBe('4 Mar 2026');
  expect(formatDate(null)).toBe('–');
});

it('keeps the Monday of a week a Monday in every time zone', () =>
  expect(formatWeek('2026-03-02')).toBe('2 Mar'));

it('keeps what is dated in UTC the same day for every reader', () => {
  expect(formatUtcDate('2026-05-12T23:30:00Z')).toBe('12 May 2026');
  expect(formatUtcDate('2026-05-12')).toBe('12 May 2026');
});
