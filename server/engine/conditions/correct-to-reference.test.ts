import fc from 'fast-check';
import { expect, it } from 'vitest';
import { correctToReference } from './correct-to-reference.ts';

const reference = { dutyPct: 85, loadPct: 50, fluidC: 85 };
const stretchAtReference = { slipRpm: 31, loadPct: 50, fluidC: 85, dutyPct: 85 };
type Three = [number, number, number];
const effects = { healthy: [0.5, 0.2, -0.4] as Three, worn: [1, 0.1, -2] as Three };
const onlyWorn = { healthy: [0, 0, 0] as Three, worn: [1, 0.5, -2] as Three };

it('runs as its note says', () => {
  expect(correctToReference(stretchAtReference, effects, 15, reference, true)).toBe(31);
});

// By hand: load 10 below at 0.5 rpm each is 5 rpm too little; fluid 5 above at 0.2 is 1 too much; duty 5 below at -0.4
// is 2 too much.
it('adds what the load lacks and takes off what heat and command add', () => {
  const away = { slipRpm: 30, loadPct: 40, fluidC: 90, dutyPct: 80 };
  expect(correctToReference(away, effects, 30, reference, true)).toBeCloseTo(30 + 5 - 1 - 2, 12);
});

it('carries slip at or below the usual by the healthy effects alone', () => {
  const away = { slipRpm: 12, loadPct: 40, fluidC: 85, dutyPct: 85 };
  expect(correctToReference(away, effects, 12, reference, true)).toBeCloseTo(17, 12);
  expect(correctToReference(away, effects, 60, reference, true)).toBeCloseTo(17, 12);
});

// By hand: 120 - 20 = 100 rpm risen; load 10 below at 1 per 100 rpm and %: exp(0.1) = 1.105171 of it, and 5 rpm healthy.
it('stretches what a worn clutch slips beyond the usual', () => {
  const away = { slipRpm: 120, loadPct: 40, fluidC: 85, dutyPct: 85 };
  expect(correctToReference(away, effects, 20, reference, true)).toBeCloseTo(20 + 5 + 110.5171, 4);
});

// By hand: reference less driven is 10 % of load, -20 degC, -5 % of duty: (1 * 10 - 0.5 * 20 + 2 * 5) / 100 = 0.1.
it('adds the conditions up before it stretches', () => {
  const away = { slipRpm: 120, loadPct: 40, fluidC: 105, dutyPct: 90 };
  expect(correctToReference(away, onlyWorn, 20, reference, true)).toBeCloseTo(20 + 110.5171, 4);
});

// By hand: 20 % of load away at 10 per 100 rpm and %: exp(2), held at exp(1.1) = 3.004166, and its inverse 0.332871.
it('stretches or shrinks by no more than a factor of 3', () => {
  const steep = { healthy: [0, 0, 0] as Three, worn: [10, 0, 0] as Three };
  const from = (loadPct: number) =>
    correctToReference({ ...stretchAtReference, slipRpm: 120, loadPct }, steep, 20, reference, true);
  expect(from(30)).toBeCloseTo(20 + 300.4166, 4);
  expect(from(70)).toBeCloseTo(20 + 33.2871, 4);
  expect(from(10)).toBe(from(30));
});

// Slip whose worn part goes by a straight line in the rise, d slip / dx = worn * rise, is exponential in x.
it('gives a worn clutch the same slip wherever it was driven', () => {
  const away = fc.record({
    load: fc.double({ min: -40, max: 40, noNaN: true }),
    fluid: fc.double({ min: -30, max: 30, noNaN: true }),
    duty: fc.double({ min: -20, max: 15, noNaN: true }),
    riseRpm: fc.double({ min: 0, max: 300, noNaN: true }),
  });
  fc.assert(
    fc.property(away, ({ load, fluid, duty, riseRpm }) => {
      const steep = (onlyWorn.worn[0] * load + onlyWorn.worn[1] * fluid + onlyWorn.worn[2] * duty) / 100;
      const driven = {
        slipRpm: 20 + riseRpm * Math.exp(steep),
        loadPct: 50 + load,
        fluidC: 85 + fluid,
        dutyPct: 85 + duty,
      };
      expect(correctToReference(driven, onlyWorn, 20, reference, true)).toBeCloseTo(20 + riseRpm, 9);
    }),
    { seed: 20_251_006 },
  );
});

it('leaves duty alone within a command band, and load and temperature where the feed has none', () => {
  const away = { slipRpm: 30, loadPct: null, fluidC: null, dutyPct: 60 };
  expect(correctToReference(away, effects, 10, reference, false)).toBe(30);
  expect(correctToReference({ ...away, fluidC: 95 }, effects, 30, reference, false)).toBeCloseTo(28, 12);
});
