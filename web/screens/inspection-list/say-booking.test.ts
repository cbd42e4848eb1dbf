import { expect, it } from 'vitest';
import { sayBooking, sayBookingInLine, sayNoBooking } from './say-booking.ts';

const name = (id: string) => (id === 'mossgate' ? 'Mossgate' : id);
const booking = {
  id: 4,
  state: 'booked' as const,
  depot: 'harrow-vale',
  bay: 2,
  day: '2026-11-30',
  from: '09:00',
  past: false,
};

it('says day and bay, and the depot where it is another', () => {
  expect(sayBooking(booking, 'harrow-vale', name)).toEqual({ first: 'Mon 30 Nov', second: 'bay 2' });
  expect(sayBookingInLine({ ...booking, depot: 'mossgate' }, 'harrow-vale', name)).toBe(
    'Mon 30 Nov, bay 2, Mossgate',
  );
});

it('says what waits for a day, and what nobody has closed', () => {
  expect(sayBookingInLine({ ...booking, state: 'put_off', day: null, bay: null }, 'harrow-vale', name)).toBe(
    'put off',
  );
  expect(sayBooking({ ...booking, past: true }, 'harrow-vale', name)).toEqual({
    first: 'over: not closed',
    second: 'Mon 30 Nov',
  });
});

it('says when a vehicle without a booking was inspected', () => {
  expect(sayNoBooking({ inspected_on: null })).toBe('none');
  expect(sayNoBooking({ inspected_on: '2026-11-21' })).toBe('inspected Sat 21 Nov');
});
