import { describe, expect, it } from 'vitest';
import { readTraceFlag, readTraceNumber, readTraceStamp } from './trace-cells.ts';

describe('a number', () => {
  it.each([
    ['12', 12],
    [' -60.5 ', -60.5],
    ['+.5', 0.5],
    ['1e3', 1000],
  ])('is read from %s', (cell, value) => {
    expect(readTraceNumber(cell, false)).toBe(value);
  });
  it.each(['', ' ', 'n/a', '0x10', 'Infinity', '1 000', '12 rpm', '1.2.3'])('is none in %j', (cell) => {
    expect(readTraceNumber(cell, true)).toBeNaN();
  });
  it('has a decimal comma only where commas part no columns', () => {
    expect(readTraceNumber('12,5', true)).toBe(12.5);
    expect(readTraceNumber('12,5', false)).toBeNaN();
  });
});

it('reads dates with their offset, and times of day', () => {
  expect(readTraceStamp('2026-03-02T12:00:00+02:00', false)).toBe(Date.UTC(2026, 2, 2, 10));
  expect(readTraceStamp('10:00:00,25', true)).toBe(36_000_250);
  expect(readTraceStamp('12', false)).toBeNaN();
});

it('reads yes and no, and takes an empty cell as no', () => {
  expect(['true', 'ON', '1', 'no', '', '0'].map(readTraceFlag)).toEqual([1, 1, 1, 0, 0, 0]);
  expect(readTraceFlag('perhaps')).toBeNaN();
});
