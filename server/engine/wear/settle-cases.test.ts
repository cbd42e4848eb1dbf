import { expect, it } from 'vitest';
import { makeFlatCase, makeStepCase, makeWearCase } from '#tests/helpers/make-wear-case.ts';
import { settleCases } from './settle-cases.ts';
import { wayLeft } from './way-left.ts';
import type { WearPoint } from './wear-model.ts';

/** Ten points from 100,500 to 105,000 km that lie `offRpm` off linear wear from 20 rpm to 150 in 10,000 km. */
const pointsOff = (offRpm: number, variance = 1): WearPoint[] =>
  Array.from({ length: 10 }, (_, i) => {
    const km = 100_500 + 500 * i;
    return { km, slipRpm: 20 + (130 * (km - 100_000)) / 10_000 + offRpm, variance };
  });
const settle = (offRpm: number, variance?: number) =>
  settleCases([makeWearCase()], pointsOff(offRpm, variance), 150)[0]!;

it('runs as its note says', () => {
  const flatCase = makeFlatCase();
  expect(settleCases([flatCase], pointsOff(0), 150)).toEqual([flatCase]);
});

it('leaves a case alone that its last points lie on', () => {
  expect(settle(0)).toMatchObject({ levelRpm: 85, onsetKm: 100_000 });
});

// By hand: prior sd 2 + 0.2 * 65 = 15, variance 225; eight points of variance 1 have 1 / 8; share 225 / 225.125.
it('moves the level to sharp points, and what is left of the way with it', () => {
  const settled = settle(-13);
  const share = 225 / 225.125;
  expect(settled.levelRpm).toBeCloseTo(85 - 13 * share, 9);
  expect(wayLeft(settled, 105_000, 150)).toBeCloseTo(5_000 + 1_000 * share, 6);
  expect(settled.levelSd).toBeCloseTo(Math.sqrt(1 + share / 8), 9);
});

// By hand: variance 1,800 each, 225 of eight: as much as the prior, so half of the way.
it('moves half of the way where points are as vague as the prior', () => {
  expect(settle(-13, 1_800).levelRpm).toBeCloseTo(85 - 6.5, 9);
});

it('brings the end nearer where slip stands above its path', () => {
  expect(wayLeft(settle(20), 105_000, 150)).toBeLessThan(4_000);
});

it('raises a jump that has gone on', () => {
  const points = pointsOff(0).map((point) => ({ ...point, slipRpm: 95 }));
  const settled = settleCases([makeStepCase()], points, 150)[0]!;
  expect(settled.levelRpm).toBeGreaterThan(94);
  expect(settled.onsetKm).toBe(100_000);
});

it('never falls to the healthy slip, and keeps a path that has not begun', () => {
  expect(settle(-500).levelRpm).toBe(21);
  const later = makeWearCase({ onsetKm: 106_000 });
  expect(settleCases([later], pointsOff(0), 150)).toEqual([later]);
});

it('keeps the weights', () => {
  const cases = [makeWearCase({ weight: 0.25 }), makeStepCase({ weight: 0.75 })];
  expect(settleCases(cases, pointsOff(5), 150).map((one) => one.weight)).toEqual([0.25, 0.75]);
});
