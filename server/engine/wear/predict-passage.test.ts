import { expect, it } from 'vitest';
import { makeFlatCase, makeStepCase, makeWearCase } from '#tests/helpers/make-wear-case.ts';
import { predictPassage } from './predict-passage.ts';

const WAY_SD = 0.6;

it('runs as its note says', () => {
  const cases = [makeWearCase({ onsetKm: 112_000, levelRpm: 124 })];
  expect(predictPassage(cases, 120_000, 150, WAY_SD)?.p50).toBe(2_000);
});

// Quantiles of a lognormal: exp(+-1.2816 * WAY_SD), 1.2816 the 90 % quantile of the normal (any table).
it('spreads the way left of one case by a lognormal factor', () => {
  const passage = predictPassage([makeWearCase()], 105_000, 150, WAY_SD);
  expect(passage?.p50).toBe(5_000);
  expect(passage?.p10).toBeCloseTo(5_000 * Math.exp(-1.2816 * WAY_SD), 6);
  expect(passage?.p90).toBeCloseTo(5_000 * Math.exp(1.2816 * WAY_SD), 6);
});

it('weighs the cases, and leaves out those that never reach the limit', () => {
  const near = makeWearCase({ weight: 0.3 });
  const far = makeWearCase({ onsetKm: 104_000, levelRpm: 33, weight: 0.2 });
  const both = predictPassage([near, far, makeFlatCase({ weight: 0.5 })], 105_000, 150, WAY_SD);
  expect(both?.p50).toBeGreaterThan(5_000);
  expect(both?.p50).toBeLessThan(9_000);
  expect(predictPassage([near, far], 105_000, 150, WAY_SD)).toEqual(both);
});

it('is 0 where the limit is passed, by drift or by a jump', () => {
  const past = { p10: 0, p50: 0, p90: 0 };
  expect(predictPassage([makeWearCase({ levelRpm: 155 })], 110_500, 150, WAY_SD)).toEqual(past);
  expect(predictPassage([makeStepCase({ levelRpm: 155 })], 110_500, 150, WAY_SD)).toEqual(past);
});

it('is null where nothing grows', () => {
  expect(predictPassage([makeFlatCase()], 105_000, 150, WAY_SD)).toBeNull();
  expect(predictPassage([makeWearCase({ weight: 0 })], 105_000, 150, WAY_SD)).toBeNull();
  expect(predictPassage([], 105_000, 150, WAY_SD)).toBeNull();
});
