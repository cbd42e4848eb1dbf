import { expect, it } from 'vitest';
import type { ListedBooking } from '#server/contract/bookings.ts';
import { sayOpenBooking } from './say-open-booking.ts';

const booking: ListedBooking = {
  id: 3,
  state: 'booked',
  depot: 'ulmerholt',
  bay: 1,
  day: '2026-11-27',
  from: '13:00',
  past: false,
};
const depotName = () => 'Ulmerholt';

it('says when and where a vehicle is awaited, and what its booking lacks', () => {
  expect(sayOpenBooking(booking, depotName)).toBe('Fri 27 Nov at 13:00, bay 1, Ulmerholt');
  expect(sayOpenBooking({ ...booking, past: true }, depotName)).toBe(
    'of Fri 27 Nov, over: nobody has said what became of it',
  );
  expect(sayOpenBooking({ ...booking, state: 'put_off', bay: null, day: null, from: null }, depotName)).toBe(
    'put off: it waits for a day at Ulmerholt',
  );
});
