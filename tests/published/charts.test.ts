import { expect, it } from 'vitest';
import { runCusum } from '#server/engine/charts/run-cusum.ts';
import { runEwma } from '#server/engine/charts/run-ewma.ts';
import { expectCase, readCase } from './published-case.ts';

// NIST/SEMATECH e-Handbook of Statistical Methods, section 6.3.2.3, table of the page: mark a.
it('sums up the tabular CUSUM of the handbook', () => {
  const one = readCase('08-cusum-nist');
  const { x, ...limits } = one.input as { x: number[]; target: number; k: number; h: number };
  const chart = runCusum({ values: x, ...limits });
  const counted = (place: number | null) => (place === null ? null : place + 1);
  const printed = expectCase(one, {
    s_hi: chart.high,
    s_lo: chart.low,
    first_signal_hi: counted(chart.firstHigh),
    first_signal_lo: counted(chart.firstLow),
  });
  expect(printed).toEqual(['s_hi', 's_lo', 'first_signal_hi']);
});

// NIST/SEMATECH e-Handbook, section 6.3.2.4, table and limits of the page: mark a. Its conclusion: in control.
it('averages the EWMA chart of the handbook', () => {
  const one = readCase('08-ewma-nist');
  const { x, target, sigma, lambda, L } = one.input as Record<'target' | 'sigma' | 'lambda' | 'L', number> & {
    x: number[];
  };
  const chart = runEwma({ values: x, target, sigma, lambda, width: L });
  const printed = expectCase(one, {
    z: chart.z,
    ucl_asymptotic: chart.upperInTheLongRun,
    lcl_asymptotic: chart.lowerInTheLongRun,
    ucl_exact: chart.upper,
    lcl_exact: chart.lower,
  });
  expect(printed).toHaveLength(3);
  expect(chart).toMatchObject({ alarms: [], alarmsInTheLongRun: [] });
});
