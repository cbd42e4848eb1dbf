import { expect, it } from 'vitest';
import { makeFlatOutlook, makeOutlook } from '#tests/helpers/make-wear-case.ts';
import { predictPassage } from './predict-passage.ts';

const WAY_SD = 0.6;

it('runs as its note says', () => {
  expect(predictPassage([makeOutlook()], 150)?.p50).toBe(5_000);
});

// Quantiles of a lognormal: exp(+-1.2816 * WAY_SD), 1.2816 the 90 % quantile of the normal (any table).
it('spreads the way left of one outlook by a lognormal factor', () => {
  const passage = predictPassage([makeOutlook()], 150);
  expect(passage?.p50).toBe(5_000);
  expect(passage?.p10).toBeCloseTo(5_000 * Math.exp(-1.2816 * WAY_SD), 6);
  expect(passage?.p90).toBeCloseTo(5_000 * Math.exp(1.2816 * WAY_SD), 6);
});

it('goes by the spread of each outlook', () => {
  const sure = predictPassage([makeOutlook({ waySd: 0 })], 150);
  expect(sure).toEqual({ p10: 5_000, p50: 5_000, p90: 5_000 });
});

// By hand: 5,000 and 9,000 km, each at exp(0.6 * (-1.2816, -0.5244, 0, 0.5244, 1.2816)) = 0.463, 0.730, 1, 1.370, 2.158;
// weights 0.06 and 0.04. In order 2,317 (0.06), 3,650 (0.12), 4,171 (0.16), 5,000 (0.22), 6,571 (0.26): half of 0.5.
it('weighs the outlooks, and leaves out those that never reach the limit', () => {
  const near = makeOutlook({ weight: 0.3 });
  const far = makeOutlook({ goneKm: 1_000, levelRpm: 33, weight: 0.2 });
  const both = predictPassage([near, far, makeFlatOutlook({ weight: 0.5 })], 150);
  expect(both?.p50).toBeCloseTo(9_000 * Math.exp(-0.5244 * WAY_SD), 6);
  expect(predictPassage([near, far], 150)).toEqual(both);
});

it('is 0 where the limit is passed', () => {
  const past = { p10: 0, p50: 0, p90: 0 };
  expect(predictPassage([makeOutlook({ levelRpm: 155, goneKm: 10_400 })], 150)).toEqual(past);
  expect(predictPassage([makeFlatOutlook({ levelRpm: 155 })], 150)).toEqual(past);
});

it('is null where nothing grows', () => {
  expect(predictPassage([makeFlatOutlook()], 150)).toBeNull();
  expect(predictPassage([makeOutlook({ weight: 0 })], 150)).toBeNull();
  expect(predictPassage([], 150)).toBeNull();
});
