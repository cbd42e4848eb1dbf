import { expect, it } from 'vitest';
import { clockOf, hoursBetween, localOf, minutesOf, momentOf } from './local-time.ts';

it('gives the moment of a local time in winter and in summer', () => {
  expect(momentOf('Europe/Vienna', '2026-01-15', '07:30').toISOString()).toBe('2026-01-15T06:30:00.000Z');
  expect(momentOf('Europe/Vienna', '2026-07-15', '07:30').toISOString()).toBe('2026-07-15T05:30:00.000Z');
  expect(momentOf('America/St_Johns', '2026-01-15', '24:00').toISOString()).toBe('2026-01-16T03:30:00.000Z');
});

it('takes a time that the change to summer time leaves out as that much later', () => {
  expect(localOf('Europe/Vienna', momentOf('Europe/Vienna', '2026-03-29', '02:30'))).toEqual({
    day: '2026-03-29',
    clock: '03:30',
  });
});

it('tells the day and the time at a place', () => {
  expect(localOf('Pacific/Auckland', new Date('2026-11-25T12:05:59Z'))).toEqual({
    day: '2026-11-26',
    clock: '01:05',
  });
});

it('counts minutes of a day', () => {
  expect([minutesOf('07:45'), minutesOf('24:00')]).toEqual([465, 1440]);
  expect([clockOf(465), clockOf(1440), clockOf(0)]).toEqual(['07:45', '24:00', '00:00']);
  expect(hoursBetween({ from: '07:00', to: '16:30' })).toBe(9.5);
});
