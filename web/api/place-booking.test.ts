import { expect, it } from 'vitest';
import type { BayPlan, PlannedBooking } from '#server/contract/bookings.ts';
import { placeBooking } from './place-booking.ts';

const booking: PlannedBooking = {
  fits: true,
  why_not: null,
  id: 7,
  vehicle: 'B-1',
  platform: null,
  grade: 'hold',
  state: 'booked',
  depot: 'mossgate',
  bay: 1,
  day: '2026-03-05',
  from: '07:00',
  to: '10:00',
  starts_at: '2026-03-05T07:00:00Z',
  ends_at: '2026-03-05T10:00:00Z',
  hours: 3,
  past: false,
  note: null,
  reason: null,
  version: 1,
  created_at: '2026-03-02T07:00:00Z',
  created_by: 'Maren',
  changed_at: '2026-03-02T07:00:00Z',
  changed_by: 'Maren',
};
const dayOf = (day: string, booked: number) => ({
  day,
  bays: 2,
  hours: { from: '07:00', to: '16:00' },
  note: '',
  bay_hours: 18,
  booked_hours: booked,
});
const plan: BayPlan = {
  from: '2026-03-05',
  to: '2026-03-06',
  now: '2026-03-04T08:00:00Z',
  depots: ['mossgate', 'harrow'].map((id) => ({
    id,
    name: id,
    time_zone: 'UTC',
    today: '2026-03-04',
    bays: 2,
    days: [dayOf('2026-03-05', id === 'mossgate' ? 3 : 0), dayOf('2026-03-06', 0)],
  })),
  bookings: [booking],
  put_off: [],
  past: [],
  uncovered_holds: [
    { vehicle: 'B-1', depot: 'mossgate', since: null, booking: null, reason: null, why_not: null },
  ],
};
const hoursOf = (of: BayPlan) => of.depots.map(({ days }) => days.map((day) => day.booked_hours));

it('moves a booking with its hours, and leaves depots alone that it does not touch', () => {
  const moved = placeBooking(plan, { ...booking, day: '2026-03-06', bay: 2 });
  expect(hoursOf(moved)).toEqual([
    [0, 3],
    [0, 0],
  ]);
  expect(moved.depots[1]).toBe(plan.depots[1]);
  expect(moved.uncovered_holds).toEqual([]);
});

it('takes a booking that is put off out of the days, and gives it back', () => {
  const waits = placeBooking(plan, { ...booking, state: 'put_off', day: null, bay: null });
  expect([waits.bookings, waits.put_off.map(({ id }) => id), hoursOf(waits)[0]]).toEqual([[], [7], [0, 0]]);
  const back = placeBooking(waits, booking);
  expect([back.bookings, back.put_off, hoursOf(back)]).toEqual([[booking], [], hoursOf(plan)]);
});

it('forgets a booking that is cancelled, and one that leaves the days shown', () => {
  expect(placeBooking(plan, { ...booking, state: 'cancelled' }).bookings).toEqual([]);
  expect(hoursOf(placeBooking(plan, { ...booking, day: '2026-04-01' }))[0]).toEqual([0, 0]);
});
