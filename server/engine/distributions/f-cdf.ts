import cdf from '@stdlib/stats-base-dists-f-cdf';

/**
 * Distribution function of the F distribution.
 *
 * P(X <= x), X with df1 and df2 degrees of freedom.
 *
 * @param x   value
 * @param df1 degrees of freedom above the line, above 0
 * @param df2 degrees of freedom below the line, above 0
 * @returns probability
 * Source: Abramowitz and Stegun (1964), 26.6.1; computed by @stdlib.
 * Edges: x below 0 gives 0; degrees of 0 or less give NaN. Errors: none.
 * @example fCdf(4.103, 2, 10) // 0.95
 */
export function fCdf(x: number, df1: number, df2: number): number {
  return cdf(x, df1, df2);
}
