import { expect, it } from 'vitest';
import type { BookingRow } from '#db/queries/list-bookings.ts';
import { writeCalendar } from './write-calendar.ts';

const at = (clock: string) => new Date(`2026-11-30T${clock}:00Z`);
const makeRow = (changes: Partial<BookingRow['booking']> = {}): BookingRow => ({
  booking: {
    id: 7,
    vehicle: 1,
    state: 'booked',
    depot: 'north',
    bay: 2,
    day: '2026-11-30',
    startsAt: at('06:00'),
    endsAt: at('09:00'),
    hours: 3,
    note: null,
    reason: null,
    version: 3,
    createdAt: at('01:00'),
    createdBy: 'x',
    changedAt: at('02:00'),
    changedBy: 'x',
    ...changes,
  },
  unit: 'B-1207',
  home: 'north',
  platform: null,
  unavailable: [],
  grade: null,
  firstReason: null,
  depotName: 'Skarrowick',
  timeZone: 'UTC',
});
const write = (row: BookingRow) =>
  writeCalendar({ id: 'north', name: 'Skarrowick' }, [row], {
    book: new Map(),
    calendarId: 'here',
    publicUrl: null,
  });

it('has no address of the vehicle where people have none, and no grade where there is none yet', () => {
  const text = write(makeRow({ note: 'key is inside' }));
  expect(text).toContain('\r\nSUMMARY:Inspect B-1207\r\n');
  expect(text).toContain('\r\nDESCRIPTION:key is inside\r\n');
  expect(text).not.toMatch(/URL|http/);
});

it('keeps grade and reason of a vehicle of another depot to itself', () => {
  const shown = { grade: 'hold' as const, firstReason: { kind: 'past_limit', slipRpm: 163, limitRpm: 150 } };
  expect(write({ ...makeRow(), ...shown })).toContain('Inspect B-1207 (hold)');
  const foreign = write({ ...makeRow(), ...shown, home: 'south' });
  expect(foreign).toContain('\r\nSUMMARY:Inspect B-1207\r\n');
  expect(foreign).not.toContain('163');
});

it('has no description where there is nothing to say', () => {
  expect(write(makeRow())).not.toContain('DESCRIPTION');
});

it('tells what came of an inspection, and not why an open booking was moved', () => {
  expect(write(makeRow({ state: 'done', reason: 'seal changed' }))).toContain('DESCRIPTION:seal changed\r\n');
  expect(write(makeRow({ reason: 'driver is ill' }))).not.toContain('driver');
});
