import { logNormalCdf } from './log-normal-cdf.ts';

/**
 * Upper tail of the inverse Gaussian distribution.
 *
 * 1 - F(x) = Phi(-sqrt(lambda / x) (x / mean - 1)) - exp(2 lambda / mean) Phi(-sqrt(lambda / x) (x / mean + 1)),
 * formed as exp(a) (1 - exp(b - a)) in logarithms.
 *
 * @param x      value, in the unit of the mean
 * @param mean   mean, above 0
 * @param lambda shape, above 0, in the unit of the mean
 * @returns probability
 * Source: Chhikara and Folks (1989), The Inverse Gaussian Distribution, section 2.5; log form as in Giner and
 * Smyth (2016), R Journal 8(1), 339-351. Edges: x of 0 or less gives 1.
 * Errors: throws on a mean or shape of 0 or less.
 * @example inverseGaussianTail(1, 1, 1) // 0.331898
 */
export function inverseGaussianTail(x: number, mean: number, lambda: number): number {
  if (!(mean > 0 && lambda > 0)) throw new Error('inverseGaussianTail requires a mean and a shape above 0');
  if (x <= 0) return 1;
  const root = Math.sqrt(lambda / x);
  const first = logNormalCdf(-root * (x / mean - 1));
  const second = (2 * lambda) / mean + logNormalCdf(-root * (x / mean + 1));
  return second >= first ? 0 : -Math.exp(first) * Math.expm1(second - first);
}
