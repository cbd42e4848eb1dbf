import { expect, it } from 'vitest';
import { readExpiry } from './key-expiry.ts';

const now = new Date('2026-03-04T08:30:00Z');

it('counts days from now, or takes a day to its end', () => {
  expect(readExpiry('never', '', now)).toBeNull();
  expect(readExpiry('90', '', now)).toBe('2026-06-02T08:30:00.000Z');
  expect(readExpiry('365', '', now)).toBe('2027-03-04T08:30:00.000Z');
  const end = new Date(readExpiry('date', '2026-03-31', now) ?? '');
  expect([end.getDate(), end.getHours(), end.getMinutes()]).toEqual([31, 23, 59]);
});
