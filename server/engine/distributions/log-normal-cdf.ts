import { normalCdf } from './normal-cdf.ts';

const HALF_LOG_TWO_PI = 0.5 * Math.log(2 * Math.PI);
/** Below this the asymptotic series is exact to the last digits. */
const FAR_TAIL = -12;

/**
 * Logarithm of the standard normal distribution function, also far in the lower tail.
 *
 * log Phi(z); for z < -12 by log phi(z) - log(-z) + log(1 - 1/z^2 + 3/z^4 - 15/z^6 + ...).
 *
 * @param z standard deviations from the mean
 * @returns natural logarithm of the probability
 * Source: Abramowitz and Stegun (1964), 26.2.12 (asymptotic expansion).
 * Variant: terms are added while they fall. Edges: -Infinity gives -Infinity. Errors: none; NaN gives NaN.
 * @example logNormalCdf(-40) // -804.608442
 */
export function logNormalCdf(z: number): number {
  if (z > 5) return Math.log1p(-normalCdf(-z));
  if (!(z < FAR_TAIL)) return Math.log(normalCdf(z));
  if (z === Number.NEGATIVE_INFINITY) return z;
  const square = z * z;
  let sum = 1;
  let term = 1;
  for (let k = 1; k < 30; k++) {
    const next = (-term * (2 * k - 1)) / square;
    if (Math.abs(next) >= Math.abs(term) || sum + next === sum) break;
    sum += next;
    term = next;
  }
  return -0.5 * square - HALF_LOG_TWO_PI - Math.log(-z) + Math.log(sum);
}
