import { logNormalCdf } from './log-normal-cdf.ts';

/**
 * Distribution function of the inverse Gaussian distribution.
 *
 * F(x) = Phi(sqrt(lambda / x) (x / mean - 1)) + exp(2 lambda / mean) Phi(-sqrt(lambda / x) (x / mean + 1)),
 * the second term formed in logarithms, so that it does not overflow.
 *
 * @param x      value, in the unit of the mean
 * @param mean   mean, above 0
 * @param lambda shape, above 0, in the unit of the mean
 * @returns probability
 * Source: Chhikara and Folks (1989), The Inverse Gaussian Distribution, section 2.5; Shuster (1968), J. Amer.
 * Statist. Assoc. 63, 1514-1516. Edges: x of 0 or less gives 0.
 * Errors: throws on a mean or shape of 0 or less.
 * @example inverseGaussianCdf(1, 1, 1) // 0.668102
 */
export function inverseGaussianCdf(x: number, mean: number, lambda: number): number {
  if (!(mean > 0 && lambda > 0)) throw new Error('inverseGaussianCdf requires a mean and a shape above 0');
  if (x <= 0) return 0;
  const root = Math.sqrt(lambda / x);
  const first = logNormalCdf(root * (x / mean - 1));
  const second = (2 * lambda) / mean + logNormalCdf(-root * (x / mean + 1));
  return Math.min(1, Math.exp(first) + Math.exp(second));
}
