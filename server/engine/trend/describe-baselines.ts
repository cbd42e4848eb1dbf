import type { SortedPoints } from './require-points.ts';

/** Share of the total sum of squares below which a residual one is rounding error. */
export const ROUNDING = 1e-24;

export interface Baselines {
  /** weighted mean of y */
  mean: number;
  /** weighted residual sums of squares of a constant and of a straight line */
  rssFlat: number;
  rssStraight: number;
  /** sum of w y^2 */
  sumSquares: number;
}

/**
 * What a constant and a straight line leave of a series.
 *
 * mean = sum w y / sum w; residual sums of squares about it and about the weighted least squares line.
 *
 * @param points in order of x
 * @returns mean and sums, in units of y and of w y^2
 * Source: any textbook. Edges: a constant that leaves less than rounding leaves 0. Errors: none.
 * @example describeBaselines(requirePoints('f', { x: [0, 1], y: [1, 3] })).rssFlat // 2
 */
export function describeBaselines({ n, x, y, w }: SortedPoints): Baselines {
  let total = 0;
  let sx = 0;
  let sy = 0;
  let sxx = 0;
  let sxy = 0;
  let rssFlat = 0;
  let sumSquares = 0;
  for (let i = 0; i < n; i++) {
    total += w[i] ?? 0;
    sx += (w[i] ?? 0) * (x[i] ?? 0);
    sy += (w[i] ?? 0) * (y[i] ?? 0);
  }
  const mean = sy / total;
  for (let i = 0; i < n; i++) {
    const dx = (x[i] ?? 0) - sx / total;
    const dy = (y[i] ?? 0) - mean;
    sxx += (w[i] ?? 0) * dx * dx;
    sxy += (w[i] ?? 0) * dx * dy;
    rssFlat += (w[i] ?? 0) * dy * dy;
    sumSquares += (w[i] ?? 0) * (y[i] ?? 0) ** 2;
  }
  if (rssFlat <= ROUNDING * sumSquares) rssFlat = 0;
  let rssStraight = 0;
  for (let i = 0; i < n; i++) {
    rssStraight += (w[i] ?? 0) * ((y[i] ?? 0) - mean - (sxy / sxx) * ((x[i] ?? 0) - sx / total)) ** 2;
  }
  return { mean, rssFlat, rssStraight: Math.min(rssStraight, rssFlat), sumSquares };
}
