import { describe, expect, it } from 'vitest';
import { depotInput } from '#server/contract/fleet.ts';
import {
  type DepotDraft,
  listChanges,
  newDepot,
  readDraft,
  type SpecialDraft,
  tidy,
  toDraft,
} from './depot-draft.ts';

const north = depotInput.parse({
  id: 'north',
  name: 'North yard',
  bays: 2,
  time_zone: 'Europe/Vienna',
  special_days: [
    { day: '2026-12-24', hours: { from: '07:00', to: '12:00' }, note: 'short day' },
    { day: '2026-12-25', bays: 0, note: 'Christmas' },
    { day: '2026-12-28', bays: 1 },
    { day: '2026-12-19', hours: { from: '08:00', to: '14:00' }, note: 'extra Saturday' },
  ],
});
const special = (patch: Partial<SpecialDraft>): SpecialDraft => ({
  key: 99,
  stored: '',
  day: '2026-03-09',
  closed: false,
  bays: '',
  from: '',
  to: '',
  note: '',
  ...patch,
});
const faultsOf = (patch: Partial<DepotDraft>) => readDraft({ ...toDraft(north), ...patch }).faults;
const week = toDraft(north).week;

describe('what stands in the fields', () => {
  it('is read back as it is stored', () => {
    expect(readDraft(toDraft(north))).toEqual({ depot: north, faults: {} });
  });

  it('is what the server takes, days in order and times in its form', () => {
    const { depot } = readDraft({
      ...newDepot('UTC'),
      id: 'west',
      name: 'West',
      week: { ...newDepot('UTC').week, monday: { open: true, from: '7', to: '1530' } },
      specialDays: [special({ day: '2026-05-01', closed: true }), special({ day: '2026-03-09', bays: '3' })],
    });
    expect(depotInput.parse(depot)).toEqual(depot);
    expect(depot?.week.monday).toEqual({ from: '07:00', to: '15:30' });
    expect(depot?.special_days.map(({ day, bays }) => [day, bays])).toEqual([
      ['2026-03-09', 3],
      ['2026-05-01', 0],
    ]);
  });

  it('as a new depot is the server’s own usual week', () => {
    const { depot } = readDraft({ ...newDepot('UTC'), id: 'x', name: 'X' });
    expect(depot).toEqual(depotInput.parse({ id: 'x', name: 'X' }));
  });
});

describe('what is wrong is told at its field', () => {
  it.each<[Partial<DepotDraft>, string, string]>([
    [{ id: '*' }, 'id', 'begins with a letter'],
    [{ name: ' ' }, 'name', 'A name is needed.'],
    [{ bays: '1.5' }, 'bays', 'A whole number'],
    [{ bays: '-1' }, 'bays', 'Not below 0.'],
    [{ timeZone: 'Moon/Base' }, 'time_zone', 'no such time zone'],
    [
      { week: { ...week, monday: { open: true, from: '16:00', to: '07:00' } } },
      'week.monday.to',
      'end before',
    ],
    [
      { week: { ...week, monday: { open: true, from: 'x', to: '07:00' } } },
      'week.monday.from',
      'such as 07:30',
    ],
    [{ specialDays: [special({ day: '' })] }, 'special_days.0.day', 'A day is needed.'],
    [{ specialDays: [special({ day: '0002-12-24' })] }, 'special_days.0.day', 'years 1900 to 2199'],
    [{ specialDays: [special({}), special({})] }, 'special_days.1.day', 'there already'],
    [{ specialDays: [special({ bays: '0' })] }, 'special_days.0.bays', 'Not below 1.'],
    [{ specialDays: [special({ from: '12:00', to: '8' })] }, 'special_days.0.hours.to', 'end before'],
    [{ specialDays: [special({ from: '12:00' })] }, 'special_days.0.hours.to', 'such as 07:30'],
    [{ specialDays: [special({ day: '2026-03-07' })] }, 'special_days.0.hours.from', 'Nobody works on this'],
  ])('%j', (patch, field, fault) => {
    expect(faultsOf(patch)).toEqual({ [field]: expect.stringContaining(fault) });
    expect(readDraft({ ...toDraft(north), ...patch }).depot).toBe(null);
  });

  it('a week without any day, unless there is no bay or another day to work on', () => {
    const shut = Object.fromEntries(
      Object.entries(week).map(([day, one]) => [day, { ...one, open: false }]),
    ) as DepotDraft['week'];
    expect(faultsOf({ week: shut, specialDays: [] }).week).toContain('open a weekday');
    expect(faultsOf({ week: shut, specialDays: [], bays: '0' })).toEqual({});
    expect(faultsOf({ week: shut, specialDays: [special({ from: '8', to: '12' })] })).toEqual({});
  });

  it('an id that another depot has, which would be changed instead', () => {
    expect(readDraft({ ...newDepot('UTC'), id: 'north', name: 'X' }, ['north']).faults).toEqual({
      id: 'Another depot has this id.',
    });
  });

  it('holds what a closed day has in its hidden fields for nothing', () => {
    const sunday = { open: false, from: 'nonsense', to: '' };
    expect(faultsOf({ week: { ...week, sunday } })).toEqual({});
    expect(faultsOf({ specialDays: [special({ closed: true, from: '9', to: '8' })] })).toEqual({});
  });
});

describe('what is sent of a change', () => {
  it('is what differs alone, beside id and name', () => {
    expect(listChanges(tidy(north), { ...north, name: 'North' })).toEqual({ id: 'north', name: 'North' });
    expect(listChanges(tidy(north), { ...north, bays: 3, time_zone: 'UTC' })).toEqual({
      id: 'north',
      name: 'North yard',
      bays: 3,
      time_zone: 'UTC',
    });
    expect(Object.keys(listChanges(tidy(north), { ...north, special_days: [] }))).toContain('special_days');
  });

  it('can be taken by itself where no weekday is worked any more', () => {
    const shut = Object.fromEntries(Object.keys(north.week).map((day) => [day, null])) as typeof north.week;
    const change = listChanges(tidy(north), { ...north, week: shut });
    expect(depotInput.parse(change)).toMatchObject({ week: shut, special_days: north.special_days });
  });
});
