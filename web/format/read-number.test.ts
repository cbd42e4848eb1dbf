import { expect, it } from 'vitest';
import { readNumber } from './read-number.ts';

const rule = { least: 0, most: 5000, unit: 'rpm' };

it.each([
  ['150', 150],
  [' 1,200 ', 1200],
  ['1 200.5', 1200.5],
  ['0', 0],
])('reads %j', (text, value) => {
  expect(readNumber(text, rule)).toEqual({ value });
});

it.each([
  ['', 'A figure is needed.'],
  ['1,5', 'This is no number: write it as 1200 or 2.5.'],
  ['many', 'This is no number: write it as 1200 or 2.5.'],
  ['-3', 'Not below 0.'],
  ['−3', 'Not below 0.'],
  ['5001', 'Not above 5,000 rpm.'],
])('says what is wrong with %j', (text, fault) => {
  expect(readNumber(text, rule)).toEqual({ value: null, fault });
});

it('asks for whole numbers, quarters or more than a bound', () => {
  expect(readNumber('2.5', { least: 0, most: 9, step: 1 }).fault).toBe('A whole number is needed.');
  expect(readNumber('2.3', { least: 0.25, most: 24, step: 0.25, unit: 'h' }).fault).toBe(
    'In steps of 0.25 h.',
  );
  expect(readNumber('2.75', { least: 0.25, most: 24, step: 0.25 }).value).toBe(2.75);
  expect(readNumber('0', { least: 0.25, most: 24, unit: 'h' }).fault).toBe('Not below 0.25 h.');
});

it.each([
  ['0,85', 0.85],
  ['0,850', 0.85],
  ['−1,5', -1.5],
  ['12,3456', 12.3456],
  ['1,200', 1200],
  ['2.5', 2.5],
])('takes a comma before decimals where it is told to: %j', (text, value) => {
  expect(readNumber(text, { least: -10, most: 5000, decimalComma: true })).toEqual({ value });
});
