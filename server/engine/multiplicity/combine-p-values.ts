/** A p above this counts as this: nothing in a series may outweigh the evidence of another. */
const MOST_P = 0.99;
const LEAST_P = 1e-15;

/**
 * Cauchy combination of p-values that may depend on each other, truncated at large p.
 *
 * T = mean of tan((0.5 - min(p_i, 0.99)) * pi); p = 0.5 - arctan(T) / pi. Valid for small p under arbitrary
 * dependence. Truncated, because a one-sided p is often exactly 1, where tan goes to minus infinity and would wipe
 * out a small p beside it.
 *
 * @param pValues each from 0 to 1
 * @returns combined p, or 1 where there are none
 * Source: Liu and Xie (2020), J. Amer. Statist. Assoc. 115, 393-402, equations 1 and 3 with equal weights; truncation
 * at 0.99 as Fang, Chang, Park and Tseng (2023), Statistica Sinica 33 (both from memory). Edges: p counts as 1e-15 at
 * the least; below 1e-9 tan is 1 / (p * pi); all p from 0.99 on give 0.99. Errors: none.
 * @example combinePValues([0.01, 0.01]) // 0.01
 */
export function combinePValues(pValues: readonly number[]): number {
  if (pValues.length === 0) return 1;
  const sum = pValues.reduce((total, given) => {
    const p = Math.min(MOST_P, Math.max(LEAST_P, given));
    return total + (p < 1e-9 ? 1 / (p * Math.PI) : Math.tan((0.5 - p) * Math.PI));
  }, 0);
  const mean = sum / pValues.length;
  return mean > 1e9 ? 1 / (mean * Math.PI) : 0.5 - Math.atan(mean) / Math.PI;
}
