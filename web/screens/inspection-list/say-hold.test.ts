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
const none = { booking: null, reason: null, why_not: null };

it('says why there is no day', () => {
  expect(sayHold(none)).toBe('');
  expect(sayHold({ ...none, reason: 'driver ill' })).toBe('cancelled: driver ill');
  expect(sayHold({ ...none, booking, reason: 'waits for a part' })).toBe('put off: waits for a part');
  expect(sayHold({ ...none, booking })).toBe('put off');
  const past = { ...booking, state: 'booked' as const, past: true, day: '2026-03-02', bay: 1, from: '09:00' };
  expect(sayHold({ ...none, booking: past })).toBe('over, not closed');
  const ahead = { ...past, past: false };
  expect(sayHold({ ...none, booking: ahead, why_not: 'North is closed.' })).toBe('no longer fits');
});
