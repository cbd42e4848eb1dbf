import { expect, it } from 'vitest';
import { chanceOfPassage } from '#server/engine/passage/chance-of-passage.ts';
import { describePassage } from '#server/engine/passage/describe-passage.ts';
import { extrapolateToLimit } from '#server/engine/passage/extrapolate-to-limit.ts';
import { fitWienerDrift } from '#server/engine/passage/fit-wiener-drift.ts';
import { quantileOfPassage } from '#server/engine/passage/quantile-of-passage.ts';
import { had } from './had.ts';
import { expectCase, readCase } from './published-case.ts';

interface Lasers {
  t: number[];
  units: { y: number[] }[];
}

// Meeker and Escobar (1998), Statistical Methods for Reliability Data, table C.17, with the inverse Gaussian model of
// Chhikara and Folks (1989): computed values only.
it('fits a Wiener process to the lasers and gives their first passage', () => {
  const one = readCase('16-wiener-gaas-laser');
  const input = one.input as Lasers & { distance_to_threshold: number; cdf_at: number[] };
  const fit = had(fitWienerDrift(input.units.map(({ y }) => ({ t: input.t, y }))));
  const approach = { distance: input.distance_to_threshold, drift: fit.drift, variance: fit.variance };
  const passage = had(describePassage(approach));
  const chances = input.cdf_at.map((time) => chanceOfPassage(approach, time));
  expectCase(one, {
    n_increments: fit.increments,
    drift: fit.drift,
    sigma2_mle: fit.variance,
    se_drift: fit.seDrift,
    first_passage_mean: passage.mean,
    first_passage_lambda: passage.lambda,
    first_passage_sd: passage.sd,
    first_passage_cdf: chances,
  });
  expect(had(quantileOfPassage(approach, chances[2] ?? 0))).toBeCloseTo(input.cdf_at[2] ?? 0, 6);
});

// Meeker and Escobar (1998), table C.17 and section 13.8, the 15 pseudo failure times: mark c.
it('carries each laser on to its limit', () => {
  const one = readCase('16-degr-gaas-laser');
  const { t, units, threshold } = one.input as Lasers & { threshold: number };
  const lines = units.map(({ y }) => had(extrapolateToLimit({ t, y, limit: threshold, path: 'line' })));
  const printed = expectCase(one, {
    ols_slope: lines.map((line) => line.slope),
    pseudo_failure_time_ols: lines.map((line) => line.time),
    pseudo_failure_time_through_origin: units.map(
      ({ y }) => had(extrapolateToLimit({ t, y, limit: threshold, path: 'through-origin' })).time,
    ),
  });
  expect(printed).toEqual(['pseudo_failure_time_ols']);
});
