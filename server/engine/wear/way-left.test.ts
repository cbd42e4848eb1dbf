import { expect, it } from 'vitest';
import { makeFlatOutlook, makeOutlook } from '#tests/helpers/make-wear-case.ts';
import { wayLeft } from './way-left.ts';

it('runs as its note says', () => {
  expect(wayLeft(makeOutlook({ goneKm: 4_000, spanKm: 10_000 }), 150)).toBe(6_000);
});

it('is what is left of the span, and all of it and more before the onset', () => {
  expect(wayLeft(makeOutlook(), 150)).toBe(5_000);
  expect(wayLeft(makeOutlook({ levelRpm: 20, goneKm: -3_000 }), 150)).toBe(13_000);
});

it('is 0 at the limit and past it, whether slip grows or was there from the start', () => {
  expect(wayLeft(makeOutlook({ levelRpm: 150 }), 150)).toBe(0);
  expect(wayLeft(makeOutlook({ levelRpm: 163, goneKm: 11_000 }), 150)).toBe(0);
  expect(wayLeft(makeFlatOutlook({ levelRpm: 200, baselineRpm: 200 }), 150)).toBe(0);
  // Gone further than its span, at a level that rounding left below the limit.
  expect(wayLeft(makeOutlook({ levelRpm: 149.9, goneKm: 10_001 }), 150)).toBe(0);
});

it('has no end where slip does not grow', () => {
  expect(wayLeft(makeFlatOutlook(), 150)).toBe(Number.POSITIVE_INFINITY);
});
