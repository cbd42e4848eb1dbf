import betainc from '@stdlib/math-base-special-betainc';

/**
 * Upper tail of the F distribution, as a test's p-value needs it.
 *
 * P(X > x) = I_u(df2 / 2, df1 / 2), u = df2 / (df2 + df1 x), I the regularised incomplete beta function: no loss
 * of digits as in 1 - P.
 *
 * @param x   value
 * @param df1 degrees of freedom above the line, above 0
 * @param df2 degrees of freedom below the line, above 0
 * @returns probability
 * Source: Abramowitz and Stegun (1964), 26.6.2; computed by @stdlib.
 * Edges: x of 0 or less gives 1; degrees of 0 or less give NaN. Errors: none.
 * @example fTail(4.103, 2, 10) // 0.05
 */
export function fTail(x: number, df1: number, df2: number): number {
  if (!(df1 > 0 && df2 > 0)) return Number.NaN;
  return x <= 0 ? 1 : betainc(df2 / (df2 + df1 * x), df2 / 2, df1 / 2);
}
