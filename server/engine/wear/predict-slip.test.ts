import { expect, it } from 'vitest';
import { makeFlatOutlook, makeOutlook } from '#tests/helpers/make-wear-case.ts';
import { predictSlip } from './predict-slip.ts';

const WAY_SD = 0.6;

it('runs as its note says', () => {
  const [low = 0, middle, high = 0] = predictSlip([makeOutlook()], 5_000, 150, [0.1, 0.5, 0.9]);
  expect(middle).toBe(150);
  expect(low).toBeLessThan(150);
  expect(high).toBeGreaterThan(150);
});

// 13 rpm for each 1,000 km, over 5,000 km shrunk or stretched by exp(1.2816 * 0.6); 1.2816 the 90 % quantile of the
// normal (any table).
it('stretches the way ahead by a lognormal factor', () => {
  const sure = makeOutlook({ levelSd: 0 });
  const [low, high] = predictSlip([sure], 5_000, 150, [0.1, 0.9]);
  expect(low).toBeCloseTo(85 + 65 * Math.exp(-1.2816 * WAY_SD), 9);
  expect(high).toBeCloseTo(85 + 65 * Math.exp(1.2816 * WAY_SD), 9);
});

it('shows only the error of the level where it starts', () => {
  const [low = 0, middle, high = 0] = predictSlip([makeOutlook()], 0, 150, [0.1, 0.5, 0.9]);
  expect(middle).toBe(85);
  expect(high - 85).toBeCloseTo(1.2816, 12);
  expect(85 - low).toBeCloseTo(1.2816, 12);
});

// By hand: from half of the way, a quarter further is (3/4)^3 of the rise; with an e-folding length of 10,000 / ln 9 km,
// half of the way is (3 - 1) / 8 of the rise, and half as far again (9^(3/4) - 1) / 8.
it('goes on along the growth of the outlook', () => {
  const at = (changes: Parameters<typeof makeOutlook>[0]) =>
    predictSlip([makeOutlook({ levelSd: 0, waySd: 0, ...changes })], 2_500, 150, [0.5])[0];
  expect(at({ growth: { law: 'power', value: 3 }, levelRpm: 20 + 130 / 8 })).toBeCloseTo(
    20 + (130 * 27) / 64,
    9,
  );
  const feeding = { law: 'feedback', value: 10_000 / Math.log(9) } as const;
  expect(at({ growth: feeding, levelRpm: 52.5 })).toBeCloseTo(20 + (130 * (9 ** 0.75 - 1)) / 8, 9);
});

it('opens with the way ahead', () => {
  const width = (aheadKm: number) => {
    const [low = 0, high = 0] = predictSlip([makeOutlook()], aheadKm, 150, [0.1, 0.9]);
    return high - low;
  };
  const widths = [0, 2_000, 5_000, 10_000].map(width);
  expect(widths).toEqual([...widths].sort((a, b) => a - b));
});

it('is no narrower for an uncertain level', () => {
  const width = (levelSd: number) => {
    const [low = 0, high = 0] = predictSlip([makeOutlook({ levelSd })], 3_000, 150, [0.1, 0.9]);
    return high - low;
  };
  const widths = [0, 2, 5, 10, 20].map(width);
  expect(widths).toEqual([...widths].sort((a, b) => a - b));
});

it('stays level where nothing grows, and until the onset where wear has not begun', () => {
  expect(predictSlip([makeFlatOutlook({ levelSd: 0 })], 35_000, 150, [0.1, 0.9])).toEqual([20, 20]);
  const later = makeOutlook({ levelRpm: 20, levelSd: 0, waySd: 0, goneKm: -3_000 });
  expect(predictSlip([later], 2_000, 150, [0.5])).toEqual([20]);
  expect(predictSlip([later], 4_000, 150, [0.5])[0]).toBeCloseTo(33, 9);
});
