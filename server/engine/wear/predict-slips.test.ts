import { expect, it } from 'vitest';
import { makeFlatOutlook, makeOutlook } from '#tests/helpers/make-wear-case.ts';
import { predictSlip } from './predict-slip.ts';
import { predictSlips } from './predict-slips.ts';

it('runs as its note says', () => {
  expect(predictSlips([makeOutlook()], [0, 5_000], 150, [0.5])).toEqual([[85], [150]]);
});

it('tells of each distance what is told of it alone', () => {
  const outlooks = [
    makeOutlook({ weight: 0.3 }),
    makeFlatOutlook({ weight: 0.5 }),
    makeOutlook({ weight: 0.2 }),
  ];
  const distances = [8_000, 0, 2_500];
  const alone = distances.map((km) => predictSlip(outlooks, km, 150, [0.1, 0.5, 0.9]));
  expect(predictSlips(outlooks, distances, 150, [0.1, 0.5, 0.9])).toEqual(alone);
});
