import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type TrendReply, trendReply } from '#server/contract/analysis.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';
import { expectCase, readCase } from '#tests/published/published-case.ts';

// The worked examples of tests/published once more, through the call; sources and marks are named there.

let app: TestApp;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app?.stop());

async function askFor(body: object): Promise<TrendReply> {
  const answer = await app.post('/api/analysis/trend', body);
  expect(answer.status).toBe(200);
  return trendReply.parse(await answer.json());
}

interface Input {
  x?: number[];
  y: number[];
  conf_level?: number;
}
const inputOf = (id: string) => {
  const one = readCase(id);
  const { y, x = y.map((_, i) => i + 1), conf_level } = one.input as Input;
  return { one, x, y, ...(conf_level === undefined ? {} : { confidence: conf_level }) };
};
const ask = async (id: string) => {
  const { one, ...body } = inputOf(id);
  return { one, reply: await askFor(body), ...body };
};

it('fits a line to Norris (NIST Statistical Reference Datasets, certified values, mark a)', async () => {
  const { one, reply } = await ask('01-lin-nist-norris');
  const { slope, intercept, se_slope, se_intercept, r2 } = reply.ols ?? {};
  const printed = expectCase(one, {
    coef: [intercept, slope],
    se: [se_intercept, se_slope],
    r_squared: r2,
  });
  expect(printed).toHaveLength(5);
});

// USEPA (2009), example 17-6, mark a; Sen (1968), section 6, mark a; discoveries: computed values only.
it.each([
  ['02-theil-epa-17-6-sulfate', 2],
  ['02-theil-sen1968', 4],
  ['02-theil-ties-discoveries', 0],
])('fits the Theil-Sen line of %s', async (id, printed) => {
  const { one, reply } = await ask(id);
  const { slope, intercept, low, high } = reply.theil_sen ?? {};
  const reached = expectCase(one, { slope, intercept_separate: intercept, low_slope: low, high_slope: high });
  expect(reached).toHaveLength(printed);
});

// USEPA (2009), example 17-6: mark a, S mark c; Gilbert (1987), sections 16.4 and 17: mark a.
it.each([
  ['03-mk-epa-17-6-sulfate', 4],
  ['03-mk-gilbert-16-1', 1],
  ['03-mk-gilbert-16-3', 1],
  ['03-mk-gilbert-17-1-station1', 2],
  ['03-mk-gilbert-p211-ties', 1],
])('tests the trend of %s', async (id, printed) => {
  const { one, reply } = await ask(id);
  const reached = expectCase(one, {
    n: reply.n,
    S: reply.mann_kendall?.s,
    var_S: reply.mann_kendall?.var_s,
    Z: reply.mann_kendall?.z,
    p_two_sided: reply.mann_kendall?.p,
    tau_b: reply.mann_kendall?.tau,
    sen_slope: reply.theil_sen?.slope,
    intercept_conover: reply.theil_sen?.intercept,
  });
  expect(reached).toHaveLength(printed);
});

it('allows for serial correlation in the flow of the Nile (Hamed and Rao 1998; computed values only)', async () => {
  const { one, reply } = await ask('03-hr-nile');
  expectCase(one, {
    S: reply.mann_kendall?.s,
    var_S: reply.mann_kendall?.var_s,
    Z_uncorrected: reply.mann_kendall?.z,
    p_uncorrected: reply.mann_kendall?.p,
    sen_slope: reply.theil_sen?.slope,
    var_S_corrected: reply.hamed_rao?.var_s,
    Z_corrected: reply.hamed_rao?.z,
    p_corrected: reply.hamed_rao?.p,
  });
});

// Hollander and Wolfe (1973), canned tuna: mark c; Kendall (1976), example 3.4: mark a.
it.each([
  ['04-tau-hw-tuna', ['tau_b']],
  ['04-tau-kendall-ex3-4', ['S', 'tau_b']],
])('measures the rank correlation of %s', async (id, printed) => {
  const { one, reply } = await ask(id);
  const { s, var_s, tau } = reply.mann_kendall ?? {};
  expect(expectCase(one, { S: s, var_S: var_s, tau_b: tau })).toEqual(printed);
});

// Bacon and Watts (1971), stagnant band: a fall throughout, of which the call's hinge, flat and then rising, finds
// nothing; what the case and the call share is the straight line.
it('finds no rise in the height of the stagnant band', async () => {
  const { one, reply, y } = await ask('07-hinge-stagnant');
  const mean = y.reduce((a, b) => a + b, 0) / y.length;
  const squares = y.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  expectCase(one, { rss_single_line: (1 - (reply.ols?.r2 ?? 0)) * squares });
  expect(reply.hinge).toMatchObject({ break: null, slope_after: 0 });
  expect(reply.hinge?.p_against_flat).toBeGreaterThan(0.5);
});

// Cobb (1978), flow of the Nile; values printed in the test output of a public library: mark a.
it('finds the shift in the flow of the Nile', async () => {
  const one = readCase('07-shift-nile');
  const { start_year, y } = one.input as { start_year: number; y: number[] };
  const { level_shift } = await askFor({ x: y.map((_, i) => start_year + i), y });
  const printed = expectCase(one, {
    last_index_of_first_segment: (level_shift?.last_before ?? 0) - start_year + 1,
    mean_before: level_shift?.before,
    mean_after: level_shift?.after,
    F_at_break: level_shift?.f,
  });
  expect(printed).toHaveLength(2);
  expect(level_shift).toMatchObject({ first_after: 1899, favours: 'shift' });
});

describe('the charts of the NIST/SEMATECH e-Handbook, value by value', () => {
  const index = (values: readonly number[]) => values.map((_, i) => i + 1);

  // Section 6.3.2.3, table of the page: mark a. Its k and h are in the unit of the values, so the sd is 1.
  it('sums up the CUSUM', async () => {
    const one = readCase('08-cusum-nist');
    const { x: values, target, k, h } = one.input as { x: number[] } & Record<'target' | 'k' | 'h', number>;
    const computed = one.expected.computed as Record<'s_hi' | 's_lo', number[]>;
    const printed = one.expected.published as Record<'s_hi' | 's_lo', number[]>;
    for (let n = 3; n <= values.length; n++) {
      const y = values.slice(0, n);
      const { cusum } = await askFor({ x: index(y), y, baseline: { target, sd: 1 }, cusum: { k, h } });
      expect(cusum?.high).toBeCloseTo(computed.s_hi[n - 1] ?? Number.NaN, 9);
      expect(cusum?.low).toBeCloseTo(computed.s_lo[n - 1] ?? Number.NaN, 9);
      expect(Math.abs((cusum?.high ?? 0) - (printed.s_hi[n - 1] ?? 0))).toBeLessThan(0.0051);
      expect(Math.abs((cusum?.low ?? 0) - (printed.s_lo[n - 1] ?? 0))).toBeLessThan(0.0051);
      expect(cusum?.first_alarm ?? null).toBe(n < 14 ? null : 14);
      if (n === values.length)
        expect(expectCase(one, { first_signal_hi: cusum?.first_alarm })).toEqual(['first_signal_hi']);
    }
  });

  // Section 6.3.2.4, table of the page: mark a. Its conclusion: in control.
  it('averages the EWMA', async () => {
    const one = readCase('08-ewma-nist');
    const input = one.input as { x: number[] } & Record<'target' | 'sigma' | 'lambda' | 'L', number>;
    const computed = one.expected.computed as { z: number[] };
    const printed = one.expected.published as { z: number[] };
    const baseline = { target: input.target, sd: input.sigma };
    for (let n = 3; n <= input.x.length; n++) {
      const y = input.x.slice(0, n);
      const chart = { lambda: input.lambda, width: input.L };
      const { ewma } = await askFor({ x: index(y), y, baseline, ewma: chart });
      expect(ewma?.last).toBeCloseTo(computed.z[n - 1] ?? Number.NaN, 8);
      expect(Math.abs((ewma?.last ?? 0) - (printed.z[n - 1] ?? 0))).toBeLessThan(0.0051);
      expect(ewma).toMatchObject({ first_alarm: null, ...baseline, ...chart });
    }
  });
});
