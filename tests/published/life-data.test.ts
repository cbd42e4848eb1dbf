import { describe, expect, it } from 'vitest';
import { estimateIncidence } from '#server/engine/life/estimate-incidence.ts';
import { estimateKaplanMeier } from '#server/engine/life/estimate-kaplan-meier.ts';
import { estimateNelsonAalen } from '#server/engine/life/estimate-nelson-aalen.ts';
import { findMedianLife } from '#server/engine/life/find-median-life.ts';
import { fitCox } from '#server/engine/life/fit-cox.ts';
import { fitLogNormal } from '#server/engine/life/fit-log-normal.ts';
import { fitWeibull } from '#server/engine/life/fit-weibull.ts';
import type { ObservedLife } from '#server/engine/life/life-model.ts';
import { testLogRank } from '#server/engine/life/test-log-rank.ts';
import { had } from './had.ts';
import { observeCase, observeGroups } from './observe-case.ts';
import { expectCase, readCase } from './published-case.ts';

describe('Kaplan-Meier and Nelson-Aalen', () => {
  const follow = (lives: readonly ObservedLife[]) => {
    const points = estimateKaplanMeier(lives, 0.95);
    const hazard = estimateNelsonAalen(lives);
    return {
      time: points.map(({ x }) => x),
      n_risk: points.map(({ atRisk }) => atRisk),
      n_event: points.map(({ events }) => events),
      survival: points.map(({ survival }) => survival),
      greenwood_se: points.map(({ se }) => se),
      loglog_low: points.map(({ low }) => low),
      loglog_high: points.map(({ high }) => high),
      nelson_aalen: hazard.map(({ cumulativeHazard }) => cumulativeHazard),
      nelson_aalen_var: hazard.map(({ se }) => se ** 2),
      median: findMedianLife(points)?.estimate ?? null,
    };
  };

  // Freireich and others (1963), Gehan (1965): printed in the test output of a public library, mark a; medians mark c.
  it('follow the remission times of Freireich', () => {
    const one = readCase('10-km-6mp');
    const groups = observeGroups(one);
    const printed = expectCase(
      one,
      Object.fromEntries([...groups].map(([name, lives]) => [name, follow(lives)])),
    );
    expect(printed).toHaveLength(8);
  });

  // Cole and Hudgens (2010), AIDS 24, 2423-2431: event table of the paper, mark a.
  it('follow men who entered late (Cole and Hudgens)', () => {
    const one = readCase('13-ltkm-macs');
    expect(expectCase(one, follow(observeCase(one)))).toHaveLength(6);
  });
});

// Freireich: mark c; Kalbfleisch and Prentice (1980), lung cancer by cell type: mark c.
it.each([
  ['11-logrank-6mp', 3],
  ['11-logrank-veteran-celltype', 1],
])('tests the groups of %s by log-rank', (id, printed) => {
  const one = readCase(id);
  const { chisq, df, p, observed, expected } = had(testLogRank([...observeGroups(one).values()]));
  expect(expectCase(one, { chisq, df, p, observed, expected })).toHaveLength(printed);
});

describe('life distributions', () => {
  const asWeibull = (lives: readonly ObservedLife[]) => {
    const fit = had(fitWeibull(lives, 0.95));
    const { shape, scale, seShape, seScale } = fit;
    return {
      mu: Math.log(scale),
      sigma: 1 / shape,
      se_mu: fit.seLogScale,
      se_sigma: seShape / shape ** 2,
      cov_mu_sigma: -fit.covLogs / shape,
      loglik: fit.loglik,
      sigma_ci95: [1 / fit.shapeHigh, 1 / fit.shapeLow],
      B10: fit.b10.estimate,
      B10_ci95: [fit.b10.low, fit.b10.high],
      eta: scale,
      beta: shape,
      eta_ci95: [fit.scaleLow, fit.scaleHigh],
      beta_ci95: [fit.shapeLow, fit.shapeHigh],
      se_eta: seScale,
      se_beta: seShape,
    };
  };

  // O'Connor (1985), Meeker and Escobar (1998), table C.2: mark a, standard errors c; Nelson (1982), p. 133: mark c.
  it.each([
    ['12-life-shock-absorber', 8],
    ['12-life-diesel-fan', 2],
  ])('fit %s', (id, printed) => {
    const one = readCase(id);
    const lives = observeCase(one);
    const { mu, sigma, seMu, seSigma, covMuSigma, loglik, sigmaLow, sigmaHigh, b10 } = had(
      fitLogNormal(lives, 0.95),
    );
    const lognormal = {
      mu,
      sigma,
      se_mu: seMu,
      se_sigma: seSigma,
      cov_mu_sigma: covMuSigma,
      loglik,
      sigma_ci95: [sigmaLow, sigmaHigh],
      B10: b10.estimate,
      B10_ci95: [b10.low, b10.high],
    };
    expect(expectCase(one, { weibull: asWeibull(lives), lognormal })).toHaveLength(printed);
  });

  it('fit men who entered late (Cole and Hudgens 2010; computed values only)', () => {
    const one = readCase('13-ltweib-macs');
    expectCase(one, asWeibull(observeCase(one)));
  });

  // Meeker and Escobar (1998), table C.2 and chapter 15; computed values only.
  it('fit the modes of the shock absorbers, and their incidence', () => {
    const one = readCase('14-cif-shock-absorber');
    const lives = observeCase(one);
    const modes = had(estimateIncidence(lives));
    const { time } = one.expected.computed as { time: number[] };
    const follow = (k: number, which: 'incidence' | 'se') =>
      time.map((x) => modes[k]?.points.filter((point) => point.x <= x).at(-1)?.[which] ?? 0);
    const byMode = ['1', '2'].map((mode) =>
      asWeibull(lives.map((life) => ({ ...life, event: life.event && life.mode === mode }))),
    );
    expectCase(one, {
      cif_1: follow(0, 'incidence'),
      cif_2: follow(1, 'incidence'),
      se_delta_cif_1: follow(0, 'se'),
      se_delta_cif_2: follow(1, 'se'),
      weibull_by_mode: { mode_1: byMode[0], mode_2: byMode[1] },
    });
  });
});

// Freireich, printed in the test output of a public library: mark a; Therneau and Grambsch (2000), appendix E.1: mark a.
it.each([
  ['15-cox-6mp', 3],
  ['15-cox-tg-test1', 1],
])('regresses %s by Cox, with Efron ties', (id, printed) => {
  const one = readCase(id);
  const { X } = one.input as { X: Record<string, number[]> };
  const names = Object.keys(X);
  const lives = observeCase(one).map((life, i) => ({
    ...life,
    covariates: names.map((name) => X[name]?.[i] ?? Number.NaN),
  }));
  const { terms, loglik, loglikNull, lrChisq } = had(fitCox(lives, names, 0.95));
  const efron = {
    coef: terms.map(({ coef }) => coef),
    se: terms.map(({ se }) => se),
    loglik_null: loglikNull,
    loglik,
    lr_chisq: lrChisq,
  };
  expect(expectCase(one, { efron })).toHaveLength(printed);
});
