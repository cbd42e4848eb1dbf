import { expect, it } from 'vitest';
import { forecastFull } from './forecast-full.ts';

const now = new Date('2026-11-27T10:00:00Z');
const course = { now, freeBytes: 1000, bytesPerDay: 10, keepMonths: 0, drops: [] };

it('counts the days that the free space lasts', () => {
  expect(forecastFull(course)).toBe('2027-03-07');
  expect(Date.UTC(2027, 2, 7) - Date.UTC(2026, 10, 27)).toBe(100 * 86_400_000);
});

it('gives back what retention drops on the way, and not what it drops after', () => {
  const drops = [
    { on: '2026-12-01', bytes: 300 },
    { on: '2028-01-01', bytes: 5000 },
  ];
  expect(forecastFull({ ...course, drops })).toBe('2027-04-06');
});

it('does not fill up where the first month of today is dropped before', () => {
  expect(forecastFull({ ...course, keepMonths: 1 })).toBeNull();
  expect(forecastFull({ ...course, keepMonths: 6 })).toBe('2027-03-07');
});

it('says nothing of what lies beyond ten years, or does not grow', () => {
  expect(forecastFull({ ...course, freeBytes: 36_540 })).toBeNull();
  expect(forecastFull({ ...course, freeBytes: 36_520 })).toBe('2036-11-26');
  expect(forecastFull({ ...course, bytesPerDay: 0 })).toBeNull();
});
