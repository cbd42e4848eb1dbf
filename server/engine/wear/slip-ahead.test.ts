import { expect, it } from 'vitest';
import { makeFlatOutlook, makeOutlook } from '#tests/helpers/make-wear-case.ts';
import { slipAhead } from './slip-ahead.ts';

it('runs as its note says', () => {
  expect(slipAhead(makeOutlook({ goneKm: 4_000, spanKm: 10_000 }), 6_000, 150)).toBe(150);
});

// By hand: 13 rpm for each 1,000 km of linear wear; of cubic wear (3/4)^3 of 130 rpm after three quarters of the span.
it('goes on along the path of the outlook, and back along it', () => {
  expect(slipAhead(makeOutlook(), 0, 150)).toBe(85);
  expect(slipAhead(makeOutlook(), 2_000, 150)).toBeCloseTo(85 + 26, 9);
  expect(slipAhead(makeOutlook(), -2_000, 150)).toBeCloseTo(85 - 26, 9);
  const cubic = makeOutlook({ growth: { law: 'power', value: 3 }, levelRpm: 36.25 });
  expect(slipAhead(cubic, 2_500, 150)).toBeCloseTo(20 + (130 * 27) / 64, 9);
});

it('stays at the level where nothing grows, and until the onset where wear has not begun', () => {
  expect(slipAhead(makeFlatOutlook(), 50_000, 150)).toBe(20);
  const later = makeOutlook({ levelRpm: 20, goneKm: -3_000 });
  expect([2_000, 3_000].map((km) => slipAhead(later, km, 150))).toEqual([20, 20]);
  expect(slipAhead(later, 4_000, 150)).toBeCloseTo(33, 9);
});
