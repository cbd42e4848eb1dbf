import { type Declined, decline, isDeclined } from '#server/engine/declined.ts';
import { normalCdf } from '#server/engine/distributions/normal-cdf.ts';
import { normalQuantile } from '#server/engine/distributions/normal-quantile.ts';
import { measureAutocorrelations } from './measure-autocorrelations.ts';
import { rankValues } from './rank-values.ts';
import { selectSlopes } from './select-slopes.ts';
import { testMannKendall } from './test-mann-kendall.ts';

export interface HamedRao {
  n: number;
  s: number;
  /** variance of S with the serial correlation in it */
  varS: number;
  z: number;
  /** two-sided */
  p: number;
  /** Theil-Sen slope that is taken out first, unit of y per step */
  slope: number;
  /** n / n*: how many times the variance grew */
  inflation: number;
  /** correlation from which a lag counts */
  bound: number;
  /** lags, in steps, at which the ranks are correlated, with their correlations */
  lags: { lag: number; correlation: number }[];
}

/**
 * Mann-Kendall test with the variance for serially correlated data.
 *
 * e_t = y_t - b t, b the Theil-Sen slope, t = 1 .. n; rho(i) = autocorrelation of the ranks of e; lags with
 * |rho(i)| > z(1 - alpha/2) / sqrt(n), i = 1 .. n - 1, count;
 * n / n* = 1 + 2 / {n(n-1)(n-2)} sum (n-i)(n-i-1)(n-i-2) rho(i);
 * var S* = var S n / n*, Z = (S - sign S) / sqrt(var S*), p = 2 Phi(-|Z|).
 *
 * @param y        values, evenly spaced, in order
 * @param alpha    level at which a lag counts, 0.05
 * @param mostLags longest lag that may count; without it n - 1
 * @returns the test, or declined: as the parts, or where the correlations leave no positive variance
 * Source: Hamed and Rao (1998), J. Hydrology 204, 182-196. Variant: every lag may count; the paper itself looks at
 * few. Autocorrelations of long series by measureAutocorrelations: cost O(n log n). Limit, by own simulation of first-order series of 60 values without a trend: at a nominal 5 % the plain test
 * calls 5, 12, 22, 49 % of them at correlations of 0, 0.3, 0.5, 0.8; this one 8, 14, 18, 28 %; with mostLags 3
 * 6, 10, 12, 18 %. Edges: no lag that counts gives the plain test.
 * Errors: as the parts; throws on alpha outside 0 to 1.
 * @example testHamedRao({ y: [1, 2, 3, 5, 4, 6] }) // no lag counts: inflation 1, the plain test
 */
export function testHamedRao({
  y,
  alpha = 0.05,
  mostLags = Number.POSITIVE_INFINITY,
}: {
  y: readonly number[];
  alpha?: number;
  mostLags?: number;
}): HamedRao | Declined {
  if (!(alpha > 0 && alpha < 1)) throw new Error('testHamedRao requires alpha between 0 and 1');
  const plain = testMannKendall({ y });
  if (isDeclined(plain)) return plain;
  const { n, s } = plain;
  const slope = measureMedianSlope(y);
  const ranks = rankValues(y.map((one, i) => one - slope * (i + 1)));
  const bound = normalQuantile(1 - alpha / 2) / Math.sqrt(n);
  const lags = Array.from(measureAutocorrelations(ranks, mostLags), (correlation, i) => ({
    lag: i + 1,
    correlation,
  })).filter(({ correlation }) => Math.abs(correlation) > bound);
  const sum = lags.reduce((a, { lag, correlation }) => {
    return a + (n - lag) * (n - lag - 1) * (n - lag - 2) * correlation;
  }, 0);
  const inflation = 1 + (2 * sum) / (n * (n - 1) * (n - 2));
  if (!(inflation > 0)) {
    return decline('serial correlation leaves no variance', 'n / n* above 0', inflation.toPrecision(3));
  }
  const varS = plain.varS * inflation;
  const z = (s - Math.sign(s)) / Math.sqrt(varS);
  return { n, s, varS, z, p: Math.min(1, 2 * normalCdf(-Math.abs(z))), slope, inflation, bound, lags };
}

/** Median of the slopes of all pairs, of values one step apart. */
function measureMedianSlope(y: readonly number[]): number {
  const pairs = (y.length * (y.length - 1)) / 2;
  const points = { x: Float64Array.from(y.keys(), (i) => i + 1), y: Float64Array.from(y) };
  const [below = 0, above = 0] = selectSlopes(points, [Math.floor((pairs - 1) / 2), Math.floor(pairs / 2)]);
  return (below + above) / 2;
}
