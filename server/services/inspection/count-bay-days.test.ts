import { expect, it } from 'vitest';
import { usualWeek } from '#server/contract/calendar.ts';
import { listDays } from '#server/services/calendar/depot-days.ts';
import { localOf } from '#server/services/calendar/local-time.ts';
import { countBayDays } from './count-bay-days.ts';

/** Monday to Friday, 07:00 to 16:00. */
const depot = { bays: 2, timeZone: 'Europe/London', week: usualWeek, specialDays: [] };
const before = { day: '2026-02-20', clock: '12:00' };
const week = listDays('2026-03-02', '2026-03-08');
const none = new Map<string, number>();

it('counts the bays of working days', () => {
  expect(countBayDays(depot, none, week, before)).toBe(10);
  expect(countBayDays(depot, none, ['2026-03-07', '2026-03-08'], before)).toBe(0);
});

it('leaves out holidays, and takes another number of bays from a special day', () => {
  const specialDays = [
    { day: '2026-03-03', bays: 0, hours: null, note: 'holiday' },
    { day: '2026-03-04', bays: 1, hours: null, note: '' },
    { day: '2026-03-07', bays: null, hours: { from: '08:00', to: '12:00' }, note: 'open' },
  ];
  expect(countBayDays({ ...depot, specialDays }, none, week, before)).toBe(2 + 0 + 1 + 2 + 2 + 2);
});

it('takes off what is booked, as a part of the day, and never more than there is', () => {
  const booked = new Map([
    ['2026-03-02', 4.5],
    ['2026-03-03', 29],
  ]);
  expect(countBayDays(depot, booked, week, before)).toBe(10 - 0.5 - 2);
});

it('has nothing of days that are over, and of today what is left of it where the depot is', () => {
  // 11:30 in London.
  const wednesday = new Date('2026-03-04T11:30:00Z');
  const at = (timeZone: string) =>
    countBayDays({ ...depot, timeZone }, none, week, localOf(timeZone, wednesday));
  expect(at('Europe/London')).toBe(2 * 0.5 + 4);
  expect(at('Asia/Tokyo')).toBe(4);
});
