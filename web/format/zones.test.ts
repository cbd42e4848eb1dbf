import { expect, it } from 'vitest';
import { findCity, isZone, listZones, sayTimeAt, todayAt } from './zones.ts';

it('lists every zone that can be asked for, UTC too', () => {
  const zones = listZones();
  expect(zones).toContain('UTC');
  expect(zones).toContain('Europe/Vienna');
  expect(zones.every(isZone)).toBe(true);
});

it('declines a zone that there is not', () => {
  expect([isZone('Moon/Base'), isZone('')]).toEqual([false, false]);
});

it('says what the clock shows there', () => {
  expect(sayTimeAt('Asia/Tokyo', new Date('2026-03-04T20:05:00Z'))).toBe('05:05 on Thursday');
});

it('knows which day it is there', () => {
  const now = new Date('2026-03-04T20:05:00Z');
  expect(todayAt('Asia/Tokyo', now)).toBe('2026-03-05');
  expect(todayAt('America/Denver', now)).toBe('2026-03-04');
  expect(todayAt('half typed', now)).toBe('2026-03-04');
});

it('finds the zone of a city that has one', () => {
  const zones = listZones();
  expect(findCity('chicago', zones)).toBe('America/Chicago');
  expect(findCity(' New York ', zones)).toBe('America/New_York');
  expect([findCity('', zones), findCity('York', zones), findCity('twice', ['A/Twice', 'B/Twice'])]).toEqual([
    null,
    null,
    null,
  ]);
});
