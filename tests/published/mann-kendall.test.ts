import { expect, it } from 'vitest';
import { normalCdf } from '#server/engine/distributions/normal-cdf.ts';
import { chanceOfKendall } from '#server/engine/trend/chance-of-kendall.ts';
import { fitTheilSen } from '#server/engine/trend/fit-theil-sen.ts';
import { measureKendall } from '#server/engine/trend/measure-kendall.ts';
import { testHamedRao } from '#server/engine/trend/test-hamed-rao.ts';
import { testMannKendall } from '#server/engine/trend/test-mann-kendall.ts';
import { had } from './had.ts';
import { expectCase, readCase } from './published-case.ts';

// USEPA (2009), Unified Guidance, example 17-6: tau, Z, p, slope mark a, S mark c.
// Gilbert (1987), Statistical Methods for Environmental Pollution Monitoring, section 16.4.1 (p. 209-211), example
// 16.3 (p. 211), example 17.1 (p. 229), p. 211 (ties): S and var S as quoted in tests of a public library, mark a.
it.each([
  ['03-mk-epa-17-6-sulfate', 5],
  ['03-mk-gilbert-16-1', 1],
  ['03-mk-gilbert-16-3', 1],
  ['03-mk-gilbert-17-1-station1', 2],
  ['03-mk-gilbert-p211-ties', 1],
])('tests the trend of %s', (id, printed) => {
  const one = readCase(id);
  const input = one.input as { x?: number[]; y: number[] };
  const test = had(testMannKendall(input));
  const line = had(fitTheilSen({ x: input.x ?? input.y.map((_, i) => i + 1), y: input.y }));
  const reached = expectCase(one, {
    n: test.n,
    S: test.s,
    var_S: test.varS,
    Z: test.z,
    p_two_sided: test.p,
    tau_a: test.tauA,
    tau_b: test.tauB,
    sen_slope: line.slope,
    intercept_conover: line.intercept,
  });
  expect(reached).toHaveLength(printed);
});

// Hollander and Wolfe (1973), Nonparametric Statistical Methods, pp. 185-187, canned tuna: mark c.
// Kendall (1976), Rank Correlation Methods, 4th ed., example 3.4, pp. 42-43: mark a.
it.each([
  ['04-tau-hw-tuna', ['tau_b']],
  ['04-tau-kendall-ex3-4', ['S', 'tau_b']],
])('measures the rank correlation of %s', (id, printed) => {
  const one = readCase(id);
  const { x, y } = one.input as { x: number[]; y: number[] };
  const { s, concordant, discordant, varS, tauB } = had(measureKendall(x, y));
  const reached = expectCase(one, {
    S: s,
    concordant,
    discordant,
    var_S: varS,
    tau_b: tauB,
    p_normal_no_continuity: 2 * normalCdf(-Math.abs(s) / Math.sqrt(varS)),
  });
  expect(reached).toEqual(printed);
});

// The same tuna: the exact p, mark c.
it('has the exact chance of the rank correlation of the tuna', () => {
  const one = readCase('04-tau-hw-tuna');
  const { x, y } = one.input as { x: number[]; y: number[] };
  const { n, s } = had(measureKendall(x, y));
  expect(expectCase(one, { p_exact: chanceOfKendall({ n, s }) })).toEqual(['p_exact']);
});

// Hamed and Rao (1998), J. Hydrology 204, 182-196, on the annual flow of the Nile: computed values only.
it('allows for serial correlation in the flow of the Nile', () => {
  const one = readCase('03-hr-nile');
  const input = one.input as { y: number[]; alpha: number };
  const [plain, test] = [had(testMannKendall(input)), had(testHamedRao(input))];
  expectCase(one, {
    S: test.s,
    var_S: plain.varS,
    Z_uncorrected: plain.z,
    p_uncorrected: plain.p,
    sen_slope: test.slope,
    acf_bound: test.bound,
    significant_lags: test.lags.map((one) => one.lag),
    acf_at_significant_lags: test.lags.map((one) => one.correlation),
    n_over_nstar: test.inflation,
    var_S_corrected: test.varS,
    Z_corrected: test.z,
    p_corrected: test.p,
  });
});
