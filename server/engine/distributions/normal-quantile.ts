import quantile from '@stdlib/stats-base-dists-normal-quantile';

/**
 * Quantile of the standard normal distribution.
 *
 * z with Phi(z) = p.
 *
 * @param p probability, 0 to 1
 * @returns standard deviations from the mean; -Infinity at 0, Infinity at 1
 * Source: Abramowitz and Stegun (1964), 26.2.22 for the definition; computed by @stdlib.
 * Edges: outside 0 to 1 NaN. Errors: none.
 * @example normalQuantile(0.975) // 1.959964
 */
export function normalQuantile(p: number): number {
  return quantile(p, 0, 1);
}
