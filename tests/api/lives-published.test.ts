import { afterAll, beforeAll, expect, it } from 'vitest';
import { type LivesReply, livesReply } from '#server/contract/lives.ts';
import type { ObservedLife } from '#server/engine/life/life-model.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';
import { observeCase, observeGroups } from '#tests/published/observe-case.ts';
import { expectCase, type PublishedCase, readCase } from '#tests/published/published-case.ts';

// The worked examples of tests/published once more, through the call; sources and marks are named there.

let app: TestApp;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app?.stop());

type Life = ObservedLife & { group?: string; covariates?: Record<string, number> };

async function askFor(lives: readonly Life[]): Promise<LivesReply> {
  const answer = await app.post('/api/analysis/lives', { lives });
  expect(answer.status).toBe(200);
  return livesReply.parse(await answer.json());
}

const askForGroups = (one: PublishedCase) =>
  askFor([...observeGroups(one)].flatMap(([group, lives]) => lives.map((life) => ({ ...life, group }))));

const follow = ({ kaplan_meier, nelson_aalen, median }: LivesReply['groups'][number]) => ({
  time: kaplan_meier.map(({ x }) => x),
  n_risk: kaplan_meier.map(({ at_risk }) => at_risk),
  n_event: kaplan_meier.map(({ events }) => events),
  survival: kaplan_meier.map(({ survival }) => survival),
  greenwood_se: kaplan_meier.map(({ se }) => se),
  loglog_low: kaplan_meier.map(({ low }) => low),
  loglog_high: kaplan_meier.map(({ high }) => high),
  nelson_aalen: nelson_aalen.map(({ cumulative_hazard }) => cumulative_hazard),
  nelson_aalen_var: nelson_aalen.map(({ se }) => se ** 2),
  median: median?.estimate ?? null,
});

it('follows survival of both groups of Freireich', async () => {
  const one = readCase('10-km-6mp');
  const { groups } = await askForGroups(one);
  const printed = expectCase(one, Object.fromEntries(groups.map((group) => [group.name, follow(group)])));
  expect(printed).toHaveLength(8);
});

it('follows survival with late entry (Cole and Hudgens)', async () => {
  const one = readCase('13-ltkm-macs');
  const { groups } = await askFor(observeCase(one));
  expect(groups[0]).toMatchObject({ name: 'all', n: 78, late_entries: 42 });
  expect(groups.map((group) => expectCase(one, follow(group)).length)).toEqual([6]);
});

it.each([
  ['11-logrank-6mp', 3],
  ['11-logrank-veteran-celltype', 1],
])('tests the groups of %s', async (id, printed) => {
  const one = readCase(id);
  const { logrank } = await askForGroups(one);
  const { chisq, df, p, groups = [] } = logrank ?? {};
  const reached = expectCase(one, {
    chisq,
    df,
    p,
    observed: groups.map(({ observed }) => observed),
    expected: groups.map(({ expected }) => expected),
  });
  expect(reached).toHaveLength(printed);
});

const asWeibull = (fit: LivesReply['groups'][number]['weibull']) =>
  fit && {
    mu: Math.log(fit.scale),
    sigma: 1 / fit.shape,
    se_mu: fit.se_log_scale,
    se_sigma: fit.se_shape / fit.shape ** 2,
    cov_mu_sigma: -fit.cov_log_scale_log_shape / fit.shape,
    loglik: fit.loglik,
    sigma_ci95: [1 / fit.shape_high, 1 / fit.shape_low],
    B10: fit.b10.estimate,
    B10_ci95: [fit.b10.low, fit.b10.high],
    eta: fit.scale,
    beta: fit.shape,
    eta_ci95: [fit.scale_low, fit.scale_high],
    beta_ci95: [fit.shape_low, fit.shape_high],
    se_eta: fit.se_scale,
    se_beta: fit.se_shape,
  };

it.each([
  ['12-life-shock-absorber', 8],
  ['12-life-diesel-fan', 2],
])('fits both distributions to %s', async (id, printed) => {
  const one = readCase(id);
  const [group] = (await askFor(observeCase(one))).groups;
  const { mu, sigma, se_mu, se_sigma, loglik, sigma_low, sigma_high, b10 } = group?.lognormal ?? {};
  const reached = expectCase(one, {
    weibull: asWeibull(group?.weibull ?? null),
    lognormal: {
      mu,
      sigma,
      se_mu,
      se_sigma,
      loglik,
      sigma_ci95: [sigma_low, sigma_high],
      B10: b10?.estimate,
      B10_ci95: [b10?.low, b10?.high],
    },
  });
  expect(reached).toHaveLength(printed);
});

it('fits a Weibull life with late entry (Cole and Hudgens; computed values only)', async () => {
  const one = readCase('13-ltweib-macs');
  const [group] = (await askFor(observeCase(one))).groups;
  expectCase(one, asWeibull(group?.weibull ?? null) ?? {});
});

it('tells the modes of the shock absorbers apart (computed values only)', async () => {
  const one = readCase('14-cif-shock-absorber');
  const [group] = (await askFor(observeCase(one))).groups;
  const { time } = one.expected.computed as { time: number[] };
  const along = (k: number, which: 'incidence' | 'se') =>
    time.map(
      (x) => group?.cumulative_incidence[k]?.points.filter((point) => point.x <= x).at(-1)?.[which] ?? 0,
    );
  const [first, second] = group?.weibull_by_mode ?? [];
  expect([first?.mode, second?.mode]).toEqual(['1', '2']);
  expectCase(one, {
    survival_all_causes: group?.kaplan_meier.map(({ survival }) => survival),
    cif_1: along(0, 'incidence'),
    cif_2: along(1, 'incidence'),
    se_delta_cif_1: along(0, 'se'),
    se_delta_cif_2: along(1, 'se'),
    weibull_by_mode: {
      mode_1: asWeibull(first?.weibull ?? null),
      mode_2: asWeibull(second?.weibull ?? null),
    },
  });
});

it.each([
  ['15-cox-6mp', 3],
  ['15-cox-tg-test1', 1],
])('regresses %s on its covariate', async (id, printed) => {
  const one = readCase(id);
  const { X } = one.input as { X: Record<string, number[]> };
  const lives = observeCase(one).map((life, i) => ({
    ...life,
    covariates: Object.fromEntries(
      Object.entries(X).map(([name, column]) => [name, column[i] ?? Number.NaN]),
    ),
  }));
  const { cox } = await askFor(lives);
  const efron = {
    coef: cox?.terms.map(({ coef }) => coef),
    se: cox?.terms.map(({ se }) => se),
    loglik_null: cox?.loglik_null,
    loglik: cox?.loglik,
    lr_chisq: cox?.lr_chisq,
  };
  expect(expectCase(one, { efron })).toHaveLength(printed);
});
