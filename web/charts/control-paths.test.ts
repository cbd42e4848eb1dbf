import { expect, it } from 'vitest';
import { expectCase, readCase } from '#tests/published/published-case.ts';
import { keepPeaks, traceCusum, traceEwma } from './control-paths.ts';

it('sums as the handbook does (NIST/SEMATECH e-Handbook 6.3.2.3)', () => {
  const one = readCase('08-cusum-nist');
  const { x, target, k, h } = one.input as { x: number[]; target: number; k: number; h: number };
  const path = traceCusum(x, { high: 0, low: 0, first_alarm: null, target, sd: 1, k, h });
  expect(expectCase(one, { s_hi: path.high, s_lo: path.low })).toContain('s_hi');
  expect(path.high.findIndex((sum) => sum > path.limit)).toBe(13);
});

it('averages as the handbook does (NIST/SEMATECH e-Handbook 6.3.2.4)', () => {
  const one = readCase('08-ewma-nist');
  const input = one.input as { x: number[]; target: number; sigma: number; lambda: number; L: number };
  const path = traceEwma(input.x, {
    last: 0,
    first_alarm: null,
    target: input.target,
    sd: input.sigma,
    lambda: input.lambda,
    width: input.L,
  });
  const checked = expectCase(one, {
    z: path.average,
    ucl_exact: path.reach.map((reach) => input.target + reach),
    lcl_exact: path.reach.map((reach) => input.target - reach),
  });
  expect(checked).toContain('z');
});

it('keeps every peak of a long path', () => {
  const values = Array.from({ length: 100_000 }, (_, i) =>
    i === 54_321 ? 99 : i === 70_001 ? -99 : Math.sin(i),
  );
  const places = keepPeaks(values, 1800);
  expect(places.length).toBeLessThanOrEqual(1801);
  expect(places).toEqual(expect.arrayContaining([0, 54_321, 70_001, 99_999]));
  expect(keepPeaks([1, 2, 3], 1800)).toEqual([0, 1, 2]);
});
