import { expect, it } from 'vitest';
import { mondayOf, sundayOf, weeksOn } from './weeks.ts';

it('counts weeks from Monday, UTC, over the ends of years', () => {
  expect(mondayOf(Date.parse('2026-03-01T23:59:59Z'))).toBe('2026-02-23');
  expect(mondayOf(Date.parse('2026-03-02T00:00:00Z'))).toBe('2026-03-02');
  expect(weeksOn('2026-12-28', 1)).toBe('2027-01-04');
  expect(weeksOn('2026-03-02', -1)).toBe('2026-02-23');
  expect(sundayOf('2026-12-28')).toBe('2027-01-03');
});
