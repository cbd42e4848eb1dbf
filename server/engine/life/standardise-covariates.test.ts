import { expect, it } from 'vitest';
import { had } from '#tests/published/had.ts';
import { standardiseCovariates } from './standardise-covariates.ts';

it('runs as its note says', () => {
  const { columns, values } = had(
    standardiseCovariates(
      [
        { count: 1, covariates: [1] },
        { count: 1, covariates: [3] },
      ],
      ['x'],
    ),
  );
  expect(columns).toEqual([{ mean: 2, sd: expect.closeTo(Math.SQRT2, 6) }]);
  expect(values[1]).toBeCloseTo(Math.SQRT1_2, 12);
});

it('names a covariate that is the same throughout, rounding or not', () => {
  const lives = [0.1 + 0.2, 0.3].map((x, i) => ({ count: 1, covariates: [i, x] }));
  expect(standardiseCovariates(lives, ['load', 'heat'])).toMatchObject({
    declined: { reason: '"heat" is the same in all lives' },
  });
});
