import gammainc from '@stdlib/math-base-special-gammainc';

/**
 * Upper tail of the chi-square distribution, as a test's p-value needs it.
 *
 * P(X > x) = Q(df / 2, x / 2), Q the upper regularised incomplete gamma function: no loss of digits as in 1 - P.
 *
 * @param x  value
 * @param df degrees of freedom, above 0
 * @returns probability
 * Source: Abramowitz and Stegun (1964), 26.4.2 and 26.4.19; computed by @stdlib.
 * Edges: x of 0 or less gives 1; df of 0 or less gives NaN. Errors: none.
 * @example chiSquareTail(3.841, 1) // 0.05
 */
export function chiSquareTail(x: number, df: number): number {
  return x <= 0 && df > 0 ? 1 : gammainc(x / 2, df / 2, true, true);
}
