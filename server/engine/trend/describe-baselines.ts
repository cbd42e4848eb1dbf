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
  const at = (values: Float64Array, i: number) => values[i] ?? 0;
  let [total, sx, sy, sxx, sxy, rssFlat, sumSquares] = [0, 0, 0, 0, 0, 0, 0];
  for (let i = 0; i < n; i++) {
    total += at(w, i);
    sx += at(w, i) * at(x, i);
    sy += at(w, i) * at(y, i);
  }
  const mean = sy / total;
  for (let i = 0; i < n; i++) {
    const dx = at(x, i) - sx / total;
    const dy = at(y, i) - mean;
    sxx += at(w, i) * dx * dx;
    sxy += at(w, i) * dx * dy;
    rssFlat += at(w, i) * dy * dy;
    sumSquares += at(w, i) * at(y, i) ** 2;
  }
  if (rssFlat <= ROUNDING * sumSquares) rssFlat = 0;
  let rssStraight = 0;
  for (let i = 0; i < n; i++) {
    rssStraight += at(w, i) * (at(y, i) - mean - (sxy / sxx) * (at(x, i) - sx / total)) ** 2;
  }
  return { mean, rssFlat, rssStraight: Math.min(rssStraight, rssFlat), sumSquares };
}
