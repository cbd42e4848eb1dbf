import { expect, it } from 'vitest';
import { formatAge, formatDays } from './format-days.ts';

it.each([
  [0, 'now'],
  [0.4, 'under a day'],
  [1.2, '1\u00a0day'],
  [18.3, '18\u00a0days'],
  [59.4, '59\u00a0days'],
  [70, '10\u00a0weeks'],
  [200, '7\u00a0months'],
  [900, 'over 2\u00a0years'],
])('says %d days as %s', (days, text) => expect(formatDays(days)).toBe(text));

it('has a dash where nothing drifts', () => expect(formatDays(null)).toBe('–'));

it('says how long ago a reading came', () => {
  const now = new Date('2026-03-04T08:30:00Z');
  expect(formatAge('2026-03-04T01:00:00Z', now)).toBe('within a day');
  expect(formatAge('2026-03-01T01:00:00Z', now)).toBe('3\u00a0days ago');
  expect(formatAge(null, now)).toBe('–');
});
