import cdf from '@stdlib/stats-base-dists-t-cdf';

/**
 * Distribution function of Student's t distribution.
 *
 * P(T <= t), T with df degrees of freedom. The upper tail is tCdf(-t, df).
 *
 * @param t  value
 * @param df degrees of freedom, above 0
 * @returns probability
 * Source: Abramowitz and Stegun (1964), 26.7.1; computed by @stdlib.
 * Edges: df of 0 or less gives NaN. Errors: none.
 * @example tCdf(2.228, 10) // 0.975
 */
export function tCdf(t: number, df: number): number {
  return cdf(t, df);
}
