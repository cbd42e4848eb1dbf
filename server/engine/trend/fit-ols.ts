import { type Declined, decline } from '#server/engine/declined.ts';
import { type Points, requirePoints } from './require-points.ts';

export interface StraightLine {
  n: number;
  /** unit of y per unit of x */
  slope: number;
  /** value at x = 0, unit of y */
  intercept: number;
  seSlope: number;
  seIntercept: number;
  /** share of the sum of squares about the mean that the line explains; null where all y are equal */
  r2: number | null;
  /** weighted residual sum of squares, and its root per degree of freedom */
  rss: number;
  residualSd: number;
}

/**
 * Ordinary (weighted) least squares: straight line.
 *
 * slope = Sxy / Sxx, intercept = ymean - slope xmean, Sxy = sum w (x - xmean)(y - ymean);
 * s^2 = rss / (n - 2); se(slope) = s / sqrt(Sxx); se(intercept) = s sqrt(1 / sum w + xmean^2 / Sxx);
 * R2 = 1 - rss / Syy.
 *
 * @param x, y, weight in any order; weights are relative (1 / variance up to a factor)
 * @returns the line, or declined below 3 points or with all x equal
 * Source: Draper and Smith (1998), Applied Regression Analysis, sections 1.2 to 1.4 (from memory).
 * Variant: sums about the means in two passes, which keeps the digits of values far from 0.
 * Edges: equal y give slope 0 and r2 null. Errors: as {@link requirePoints}.
 * @example fitOls({ x: [0, 1, 2], y: [1, 3, 5] }) // slope 2, intercept 1, r2 1
 */
export function fitOls(points: Points): StraightLine | Declined {
  const { n, x, y, w, distinct } = requirePoints('fitOls', points);
  if (n < 3) return decline('too few points', 'at least 3', `${n}`);
  if (distinct < 2) return decline('all x equal', 'at least 2 different x', '1');
  const sum = (term: (i: number) => number) => w.reduce((total, weight, i) => total + weight * term(i), 0);
  const total = sum(() => 1);
  const meanX = sum((i) => x[i] ?? 0) / total;
  const meanY = sum((i) => y[i] ?? 0) / total;
  const dx = x.map((one) => one - meanX);
  const dy = y.map((one) => one - meanY);
  const sxx = sum((i) => (dx[i] ?? 0) ** 2);
  const syy = sum((i) => (dy[i] ?? 0) ** 2);
  const slope = sum((i) => (dx[i] ?? 0) * (dy[i] ?? 0)) / sxx;
  const rss = sum((i) => ((dy[i] ?? 0) - slope * (dx[i] ?? 0)) ** 2);
  const residualSd = Math.sqrt(rss / (n - 2));
  return {
    n,
    slope,
    intercept: meanY - slope * meanX,
    seSlope: residualSd / Math.sqrt(sxx),
    seIntercept: residualSd * Math.sqrt(1 / total + meanX ** 2 / sxx),
    r2: syy > 0 ? 1 - rss / syy : null,
    rss,
    residualSd,
  };
}
