import { type Declined, decline } from '#server/engine/declined.ts';
import { type Points, requirePoints } from './require-points.ts';

/**
 * Least squares through the origin.
 *
 * slope = sum w x y / sum w x^2; s^2 = rss / (n - 1); se = s / sqrt(sum w x^2); R2 = 1 - rss / sum w y^2, about
 * zero and not about the mean.
 *
 * @param x, y, weight in any order; weights are relative (1 / variance up to a factor)
 * @returns slope and se in unit of y per unit of x, or declined below 2 points or with all x 0
 * Source: NIST Statistical Reference Datasets, linear regression, NoInt1 (model without intercept and its R2).
 * Edges: all y 0 give r2 null. Errors: as {@link requirePoints}.
 * @example fitThroughOrigin({ x: [1, 2], y: [2, 4] }) // slope 2, r2 1
 */
export function fitThroughOrigin(
  points: Points,
):
  | { n: number; slope: number; seSlope: number; r2: number | null; rss: number; residualSd: number }
  | Declined {
  const { n, x, y, w } = requirePoints('fitThroughOrigin', points);
  if (n < 2) return decline('too few points', 'at least 2', `${n}`);
  const sum = (term: (i: number) => number) => w.reduce((total, weight, i) => total + weight * term(i), 0);
  const sxx = sum((i) => (x[i] ?? 0) ** 2);
  if (sxx === 0) return decline('all x are 0', 'an x other than 0', 'none');
  const syy = sum((i) => (y[i] ?? 0) ** 2);
  const slope = sum((i) => (x[i] ?? 0) * (y[i] ?? 0)) / sxx;
  const rss = sum((i) => ((y[i] ?? 0) - slope * (x[i] ?? 0)) ** 2);
  const residualSd = Math.sqrt(rss / (n - 1));
  return {
    n,
    slope,
    seSlope: residualSd / Math.sqrt(sxx),
    r2: syy > 0 ? 1 - rss / syy : null,
    rss,
    residualSd,
  };
}
