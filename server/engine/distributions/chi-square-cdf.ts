import cdf from '@stdlib/stats-base-dists-chisquare-cdf';

/**
 * Distribution function of the chi-square distribution.
 *
 * P(X <= x), X with df degrees of freedom.
 *
 * @param x  value
 * @param df degrees of freedom, 0 or more
 * @returns probability
 * Source: Abramowitz and Stegun (1964), 26.4.1; computed by @stdlib.
 * Edges: x below 0 gives 0; df below 0 gives NaN. Errors: none.
 * @example chiSquareCdf(3.841, 1) // 0.95
 */
export function chiSquareCdf(x: number, df: number): number {
  return cdf(x, df);
}
