import { expect, it } from 'vitest';
import { makeFlatCase, makeStepCase, makeWearCase } from '#tests/helpers/make-wear-case.ts';
import { chanceWithin } from './chance-within.ts';

const WAY_SD = 0.6;

it('runs as its note says', () => {
  const cases = [makeWearCase({ onsetKm: 115_000 })];
  expect(chanceWithin(cases, 120_000, 5_000, 150, WAY_SD)).toBeCloseTo(0.5, 12);
});

it('is one half at the way left, and rises with the way ahead', () => {
  const chances = [500, 2_500, 5_000, 10_000, 100_000].map((km) =>
    chanceWithin([makeWearCase()], 105_000, km, 150, WAY_SD),
  );
  expect(chances).toEqual([...chances].sort((a, b) => a - b));
  // ln(500 / 5,000) / 0.6 = -3.8 deviates.
  expect(chances[0]).toBeLessThan(1e-4);
  expect(chances[4]).toBeGreaterThan(0.999999);
});

// Phi(1) = 0.841345 (any table of the normal distribution).
it('takes the logarithm of the way over its spread as the normal deviate', () => {
  const ahead = 5_000 * Math.exp(WAY_SD);
  expect(chanceWithin([makeWearCase()], 105_000, ahead, 150, WAY_SD)).toBeCloseTo(0.841345, 6);
});

it('weighs the cases', () => {
  const cases = [makeWearCase({ weight: 0.4 }), makeFlatCase({ weight: 0.6 })];
  expect(chanceWithin(cases, 105_000, 5_000, 150, WAY_SD)).toBeCloseTo(0.2, 12);
  expect(chanceWithin([makeFlatCase()], 105_000, 5_000, 150, WAY_SD)).toBe(0);
});

it('is 1 past the limit, however the slip came there', () => {
  expect(chanceWithin([makeWearCase({ levelRpm: 151 })], 110_100, 1, 150, WAY_SD)).toBe(1);
  expect(chanceWithin([makeStepCase({ levelRpm: 200 })], 110_100, 1, 150, WAY_SD)).toBe(1);
});

// From 10 to 140 of 150 rpm is 13/14 of the way: 1 - exp(-5,000 * 13/14 / 15,000) = 0.2662.
it('lets a jump go on to the limit the sooner the higher it stands', () => {
  const jumped = (levelRpm: number) => [makeStepCase({ baselineRpm: 10, levelRpm })];
  expect(chanceWithin(jumped(140), 110_100, 5_000, 150, WAY_SD)).toBeCloseTo(0.2662, 4);
  expect(chanceWithin(jumped(40), 110_100, 5_000, 150, WAY_SD)).toBeLessThan(0.08);
});

it('stays within 1 where the weights are rounded up', () => {
  const past = makeWearCase({ levelRpm: 151, weight: 0.5 + 1e-15 });
  expect(chanceWithin([past, past], 110_100, 1, 150, WAY_SD)).toBe(1);
});
