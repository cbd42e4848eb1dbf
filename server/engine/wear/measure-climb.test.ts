import { expect, it } from 'vitest';
import { makeFlatOutlook, makeOutlook } from '#tests/helpers/make-wear-case.ts';
import { measureClimb } from './measure-climb.ts';

it('runs as its note says', () => {
  // From 20 to 150 rpm over 10,000 km.
  expect(measureClimb([makeOutlook()], 150)).toBeCloseTo(0.013, 12);
});

it('weighs the outlooks, and is 0 without any', () => {
  const outlooks = [makeOutlook({ weight: 0.25 }), makeFlatOutlook({ weight: 0.75 })];
  expect(measureClimb(outlooks, 150)).toBeCloseTo(0.25 * 0.013, 12);
  expect(measureClimb([], 150)).toBe(0);
});
