/**
 * Cauchy combination of p-values that may depend on each other.
 *
 * T = mean of tan((0.5 - p_i) * pi); p = 0.5 - arctan(T) / pi. Valid for small p under arbitrary dependence.
 *
 * @param pValues each from 0 to 1
 * @returns combined p, or 1 where there are none
 * Source: Liu and Xie (2020), J. Amer. Statist. Assoc. 115, 393-402, equations 1 and 3 with equal weights (from
 * memory). Edges: p is kept within 1e-15 and 1 - 1e-9, so that tan stays finite; below 1e-9 tan is 1 / (p * pi).
 * Errors: none.
 * @example combinePValues([0.01, 0.01]) // 0.01
 */
export function combinePValues(pValues: readonly number[]): number {
  if (pValues.length === 0) return 1;
  const sum = pValues.reduce((total, given) => {
    const p = Math.min(1 - 1e-9, Math.max(1e-15, given));
    return total + (p < 1e-9 ? 1 / (p * Math.PI) : Math.tan((0.5 - p) * Math.PI));
  }, 0);
  const mean = sum / pValues.length;
  return mean > 1e9 ? 1 / (mean * Math.PI) : 0.5 - Math.atan(mean) / Math.PI;
}
