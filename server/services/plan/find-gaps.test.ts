import { describe, expect, it } from 'vitest';
import { usualWeek } from '#server/contract/calendar.ts';
import { dayOfDepot } from '#server/services/calendar/depot-days.ts';
import { localOf, momentOf } from '#server/services/calendar/local-time.ts';
import { findGaps, momentOfQuarter } from './find-gaps.ts';

const depot = {
  id: 'north',
  name: 'North',
  bays: 2,
  timeZone: 'Europe/Vienna',
  week: { ...usualWeek, tuesday: { from: '07:10', to: '15:50' }, sunday: { from: '00:00', to: '24:00' } },
  specialDays: [],
};
const early = new Date('2026-01-01T00:00:00Z');
const taken = (day: string, bay: number, from: string, to: string) => ({
  bay,
  startsAt: momentOf(depot.timeZone, day, from),
  endsAt: momentOf(depot.timeZone, day, to),
});

/** Gaps as the clock of the depot shows them. */
function gapsOn(day: string, booked: Parameters<typeof findGaps>[2], now = early): string[] {
  const clock = (quarter: number) => localOf(depot.timeZone, momentOfQuarter(quarter)).clock;
  return findGaps(depot, dayOfDepot(depot, day), booked, now).gaps.map(
    ({ bay, fromQuarter, toQuarter }) => `${bay}: ${clock(fromQuarter)}-${clock(toQuarter)}`,
  );
}

describe('what is free on a day', () => {
  it('is all of every bay where nothing is booked', () => {
    expect(gapsOn('2026-11-30', [])).toEqual(['1: 07:00-16:00', '2: 07:00-16:00']);
  });

  it('is what bookings leave, in whichever order they come, also where they reach beyond the hours', () => {
    const day = '2026-11-30';
    expect(
      gapsOn(day, [
        taken(day, 1, '12:00', '13:30'),
        taken(day, 1, '08:00', '10:00'),
        taken(day, 2, '06:00', '09:00'),
        taken(day, 2, '15:00', '18:00'),
        taken(day, 3, '07:00', '16:00'),
      ]),
    ).toEqual(['1: 07:00-08:00', '1: 10:00-12:00', '1: 13:30-16:00', '2: 09:00-15:00']);
  });

  it('is nothing in a bay that is full', () => {
    const day = '2026-11-30';
    expect(gapsOn(day, [taken(day, 1, '07:00', '16:00')])).toEqual(['2: 07:00-16:00']);
  });

  it('begins and ends on quarters, which is when inspections begin', () => {
    expect(gapsOn('2026-12-01', [])).toEqual(['1: 07:15-15:45', '2: 07:15-15:45']);
  });

  it('begins now, and is nothing once the day is over', () => {
    const day = '2026-11-30';
    const at = (clock: string) => new Date(momentOf(depot.timeZone, day, clock).getTime() + 1);
    expect(gapsOn(day, [taken(day, 2, '10:00', '12:00')], at('11:00'))).toEqual([
      '1: 11:15-16:00',
      '2: 12:00-16:00',
    ]);
    expect(gapsOn(day, [], at('18:00'))).toEqual([]);
  });

  it('has an hour less on the night when the clocks go forward', () => {
    const { gaps, extra } = findGaps(depot, dayOfDepot(depot, '2026-03-29'), [], early);
    expect(gaps.map(({ fromQuarter, toQuarter }) => toQuarter - fromQuarter)).toEqual([92, 92]);
    expect(extra.toQuarter - extra.fromQuarter).toBe(92);
  });
});
