import { expect, it } from 'vitest';
import { sayHold } from './say-hold.ts';

const booking = {
  id: 1,
  state: 'put_off' as const,
  depot: 'a',
  bay: null,
  day: null,
  from: null,
  past: false,
};

it('says why there is no day', () => {
  expect(sayHold({ booking: null, reason: null })).toBe('');
  expect(sayHold({ booking: null, reason: 'driver ill' })).toBe('cancelled: driver ill');
  expect(sayHold({ booking, reason: 'waits for a part' })).toBe('put off: waits for a part');
  expect(sayHold({ booking, reason: null })).toBe('put off');
  const past = { ...booking, state: 'booked' as const, past: true, day: '2026-03-02', bay: 1, from: '09:00' };
  expect(sayHold({ booking: past, reason: null })).toBe('over, not closed');
});
