import { describe, expect, it } from 'vitest';
import { patchSearchedRange, readSearchedRange } from './searched-range.ts';

const ranges = { first: { fromKm: 60_000, toKm: 100_000 }, whole: { fromKm: 0, toKm: 120_000 } };

describe('the range of an address', () => {
  it('is what the chart begins with where the address has none', () => {
    expect(readSearchedRange(ranges, { band: '70-85' })).toEqual(ranges.first);
  });

  it('stays within the mileage of the vehicle', () => {
    expect(readSearchedRange(ranges, { from: 110_000, to: 130_000 })).toEqual({
      fromKm: 100_000,
      toKm: 120_000,
    });
  });

  it('leaves the address where it is the one that the chart begins with, but for rounding', () => {
    expect(patchSearchedRange(ranges, { fromKm: 60_000.4, toKm: 99_999.7 })).toEqual({
      from: undefined,
      to: undefined,
    });
    expect(patchSearchedRange(ranges, { fromKm: 60_000, toKm: 90_000 })).toEqual({
      from: 60_000,
      to: 90_000,
    });
  });
});
