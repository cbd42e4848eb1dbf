import quantile from '@stdlib/stats-base-dists-t-quantile';

/**
 * Quantile of Student's t distribution.
 *
 * t with P(T <= t) = p, T with df degrees of freedom.
 *
 * @param p  probability, 0 to 1
 * @param df degrees of freedom, above 0
 * @returns value; -Infinity at 0, Infinity at 1
 * Source: Abramowitz and Stegun (1964), 26.7.1 for the definition; computed by @stdlib.
 * Edges: p outside 0 to 1 or df of 0 or less gives NaN. Errors: none.
 * @example tQuantile(0.975, 10) // 2.228139
 */
export function tQuantile(p: number, df: number): number {
  return quantile(p, df);
}
