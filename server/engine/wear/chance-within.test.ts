import { expect, it } from 'vitest';
import { makeFlatOutlook, makeOutlook } from '#tests/helpers/make-wear-case.ts';
import { chanceWithin } from './chance-within.ts';

const WAY_SD = 0.6;

it('runs as its note says', () => {
  expect(chanceWithin([makeOutlook()], 150)(5_000)).toBeCloseTo(0.5, 12);
});

it('is one half at the way left, and rises with the way ahead', () => {
  const chances = [500, 2_500, 5_000, 10_000, 100_000].map((km) => chanceWithin([makeOutlook()], 150)(km));
  expect(chances).toEqual([...chances].sort((a, b) => a - b));
  // ln(500 / 5,000) / 0.6 = -3.84 and ln(100,000 / 5,000) / 0.6 = 4.99 deviates: 6e-5 and 3e-7 beyond them.
  expect(chances[0]).toBeLessThan(1e-4);
  expect(chances[4]).toBeGreaterThan(0.999999);
});

// Phi(1) = 0.841345 (any table of the normal distribution).
it('takes the logarithm of the way over its spread as the normal deviate', () => {
  expect(chanceWithin([makeOutlook()], 150)(5_000 * Math.exp(WAY_SD))).toBeCloseTo(0.841345, 6);
});

// ln(10,000 / 5,000) / 0.3 = 2.3105 deviates: Phi(2.31) = 0.98956 (any table of the normal distribution).
it('goes by the spread of each outlook', () => {
  expect(chanceWithin([makeOutlook({ waySd: 0.3 })], 150)(10_000)).toBeCloseTo(0.98957, 4);
});

it('weighs the outlooks', () => {
  const outlooks = [makeOutlook({ weight: 0.4 }), makeFlatOutlook({ weight: 0.6 })];
  expect(chanceWithin(outlooks, 150)(5_000)).toBeCloseTo(0.2, 12);
  expect(chanceWithin([makeFlatOutlook()], 150)(5_000)).toBe(0);
});

it('is 1 past the limit, however the slip came there', () => {
  expect(chanceWithin([makeOutlook({ levelRpm: 151, goneKm: 10_100 })], 150)(1)).toBe(1);
  expect(chanceWithin([makeFlatOutlook({ levelRpm: 200 })], 150)(1)).toBe(1);
});

it('stays within 1 where the weights are rounded up', () => {
  const past = makeOutlook({ levelRpm: 151, weight: 0.5 + 1e-15 });
  expect(chanceWithin([past, past], 150)(1)).toBe(1);
});

// Phi(-9) = 1.1e-19 (from memory).
it('takes what is beyond nine deviates as none, and as certain', () => {
  const at = (deviates: number) => chanceWithin([makeOutlook()], 150)(5_000 * Math.exp(deviates * WAY_SD));
  expect([at(-9.01), at(9.01)]).toEqual([0, 1]);
  expect(at(-8.9)).toBeGreaterThan(0);
  expect(at(Number.NaN)).toBeNaN();
});
