import { expect, it } from 'vitest';
import { hoursBetween, readClock } from './read-clock.ts';

it.each([
  ['07:30', '07:30'],
  ['7', '07:00'],
  ['730', '07:30'],
  ['0730', '07:30'],
  ['7.30', '07:30'],
  [' 16:00 ', '16:00'],
  ['24:00', '24:00'],
  ['24', '24:00'],
])('reads %j', (text, clock) => {
  expect(readClock(text)).toBe(clock);
});

it.each(['', '7:3', '25:00', '24:15', '12:60', 'noon', '7am', '-7', '12:345'])('declines %j', (text) => {
  expect(readClock(text)).toBe(null);
});

it('counts hours', () => {
  expect([hoursBetween('07:00', '16:30'), hoursBetween('00:00', '24:00')]).toEqual([9.5, 24]);
});
