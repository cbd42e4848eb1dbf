/** A kernel-weighted mean of one driving condition over some readings, with their weighted variance about it. */
export interface WeightedCondition {
  mean: number;
  variance: number;
  weight: number;
}

/**
 * Usual driving condition of a platform, from means that were weighted by their nearness to the reference point.
 *
 * Of normal conditions N(m, s^2) seen through a Gaussian kernel of width h about r, the weighted ones are
 * N(mu, v): 1 / v = 1 / s^2 + 1 / h^2 and mu / v = m / s^2 + r / h^2; so
 * m = (mu / v - r / h^2) / (1 / v - 1 / h^2). mu and v are pooled over the stretches: v = within + between.
 *
 * @param stretches means, variances and weights, unit of the condition
 * @param reference centre r of the kernel
 * @param width     width h of the kernel
 * @returns m, unit of the condition; null without stretches
 * Source: product of normal densities, any textbook. Edges: where the weighted spread is nearly the kernel's own the
 * answer would run away: 1 / s^2 is held at 1 / (2 h)^2 at the least. Errors: none.
 * @example usualCondition([{ mean: 56, variance: 112.5, weight: 1 }], 50, 15) // 62
 */
export function usualCondition(
  stretches: readonly WeightedCondition[],
  reference: number,
  width: number,
): number | null {
  const total = stretches.reduce((sum, one) => sum + one.weight, 0);
  if (!(total > 0)) return null;
  const mean = stretches.reduce((sum, one) => sum + one.weight * one.mean, 0) / total;
  const variance =
    stretches.reduce((sum, one) => sum + one.weight * (one.variance + (one.mean - mean) ** 2), 0) / total;
  const kernel = 1 / width ** 2;
  const spread = Math.max(kernel / 4, 1 / Math.max(1e-9, variance) - kernel);
  return (mean * (spread + kernel) - reference * kernel) / spread;
}
