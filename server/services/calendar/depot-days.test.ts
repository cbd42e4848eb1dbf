import { describe, expect, it } from 'vitest';
import { usualWeek } from '#server/contract/calendar.ts';
import { addDays, dayOfDepot, listDays, mondayOf } from './depot-days.ts';

const depot = {
  bays: 3,
  timeZone: 'Europe/Vienna',
  week: usualWeek,
  specialDays: [
    { day: '2026-12-25', bays: 0, hours: null, note: 'Christmas' },
    { day: '2026-12-24', bays: null, hours: { from: '07:00', to: '12:00' }, note: 'short day' },
    { day: '2026-12-19', bays: 1, hours: { from: '08:00', to: '14:00' }, note: 'extra Saturday' },
    { day: '2026-12-20', bays: 1, hours: null, note: 'bays, but no hours' },
  ],
};

describe('a day of a depot', () => {
  it('is as its weekday where nothing else is said', () => {
    expect(dayOfDepot(depot, '2026-12-23')).toEqual({
      day: '2026-12-23',
      bays: 3,
      hours: { from: '07:00', to: '16:00' },
      note: '',
    });
    expect(dayOfDepot(depot, '2026-12-26')).toMatchObject({ bays: 0, hours: null });
  });

  it('is as its special day says, which may close, shorten or open it', () => {
    expect(dayOfDepot(depot, '2026-12-25')).toMatchObject({ bays: 0, hours: null, note: 'Christmas' });
    expect(dayOfDepot(depot, '2026-12-24')).toMatchObject({ bays: 3, hours: { to: '12:00' } });
    expect(dayOfDepot(depot, '2026-12-19')).toMatchObject({ bays: 1, hours: { from: '08:00' } });
    expect(dayOfDepot(depot, '2026-12-20')).toMatchObject({ bays: 0, hours: null });
  });
});

it('lists days over the end of a year, and finds Mondays', () => {
  expect(listDays('2026-12-30', '2027-01-02')).toEqual([
    '2026-12-30',
    '2026-12-31',
    '2027-01-01',
    '2027-01-02',
  ]);
  expect(listDays('2026-12-30', '2026-12-29')).toEqual([]);
  expect([mondayOf('2026-11-26'), mondayOf('2026-11-23'), mondayOf('2026-11-29')]).toEqual([
    '2026-11-23',
    '2026-11-23',
    '2026-11-23',
  ]);
  expect(addDays('2026-02-27', 2)).toBe('2026-03-01');
});
