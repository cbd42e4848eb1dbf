import { expect, it } from 'vitest';
import { sayDayOf } from './say-day.ts';

const hours = { from: '07:00', to: '12:00' };

it('says what a day has room for, and what it is', () => {
  expect(sayDayOf({ kind: 'open', bays: 2, hours, note: '' })).toBe('07:00 to 12:00, 2 bays');
  expect(sayDayOf({ kind: 'short', bays: 1, hours, note: 'Christmas Eve' })).toBe(
    'less than usual: 07:00 to 12:00, one bay, Christmas Eve',
  );
  expect(sayDayOf({ kind: 'extra', bays: 1, hours, note: '' })).toContain('more than usual');
  expect(sayDayOf({ kind: 'off', bays: 0, hours: null, note: 'New Year' })).toBe(
    'closed by a special day, New Year',
  );
  expect(sayDayOf({ kind: 'closed', bays: 0, hours: null, note: '' })).toBe('no working day');
});
