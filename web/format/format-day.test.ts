import { expect, it } from 'vitest';
import { formatDay, formatDaySpan, formatHours, formatWholeDay } from './format-day.ts';

it('says a day as it stands in the calendar, whatever the zone of the reader', () => {
  expect([formatDay('2026-03-05'), formatWholeDay('2026-03-05')]).toEqual([
    'Thu 5 Mar',
    'Thursday 5 March 2026',
  ]);
});

it('names month and year of a span once where they are the same', () => {
  expect(formatDaySpan('2026-03-02', '2026-03-15')).toBe('2 to 15 Mar 2026');
  expect(formatDaySpan('2026-03-30', '2026-04-12')).toBe('30 Mar to 12 Apr 2026');
  expect(formatDaySpan('2026-12-28', '2027-01-10')).toBe('28 Dec 2026 to 10 Jan 2027');
  expect(formatDaySpan('2026-03-02', '2026-03-02')).toBe('2 Mar 2026');
});

it('keeps the quarters of hours', () => {
  expect([formatHours(3), formatHours(2.25), formatHours(0.5)]).toEqual([
    '3\u00a0h',
    '2.25\u00a0h',
    '0.5\u00a0h',
  ]);
});
