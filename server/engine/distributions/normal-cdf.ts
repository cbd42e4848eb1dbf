import cdf from '@stdlib/stats-base-dists-normal-cdf';

/**
 * Distribution function of the standard normal distribution, Phi.
 *
 * Phi(z) = integral from -infinity to z of exp(-u^2 / 2) / sqrt(2 pi) du. The upper tail is Phi(-z), without
 * loss of digits.
 *
 * @param z standard deviations from the mean
 * @returns probability
 * Source: Abramowitz and Stegun (1964), Handbook of Mathematical Functions, 26.2.2; computed by @stdlib.
 * Edges: below -38 it is 0, see logNormalCdf. Errors: none; NaN gives NaN.
 * @example normalCdf(1.96) // 0.9750021
 */
export function normalCdf(z: number): number {
  return cdf(z, 0, 1);
}
