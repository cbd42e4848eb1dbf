import { type Declined, decline } from '#server/engine/declined.ts';
import { normalQuantile } from '#server/engine/distributions/normal-quantile.ts';
import { measureMedian } from '#server/engine/robust/measure-median.ts';
import { requirePoints } from './require-points.ts';
import { selectInOrder } from './select-in-order.ts';
import { sumTies } from './sum-ties.ts';

export interface TheilSen {
  n: number;
  /** pairs with different x */
  pairs: number;
  /** median of the pairwise slopes, unit of y per unit of x */
  slope: number;
  /** Conover's: median(y) - slope median(x), unit of y */
  intercept: number;
  /** median(y - slope x), unit of y */
  interceptJoint: number;
  low: number;
  high: number;
  confidence: number;
}

/** All pairwise slopes are held: 12.5 million numbers here. */
const MOST_POINTS = 5000;

/**
 * Theil-Sen line: median of the slopes of all pairs, with Sen's confidence limits.
 *
 * slope = median of (y_j - y_i) / (x_j - x_i) over pairs with different x. Limits: the N slopes in order, 1-based
 * ranks round((N - z sigma) / 2) and round((N + z sigma) / 2) + 1, half to even,
 * sigma^2 = {n(n-1)(2n+5) - sum t(t-1)(2t+5) - sum u(u-1)(2u+5)} / 18, t and u the ties in y and x.
 *
 * @param x, y       in any order
 * @param confidence of the limits, 0 to 1, default 0.95
 * @returns the line, or declined below 3 points, with all x equal or above 5,000 points (thin them, or use medians
 * of stretches)
 * Source: Theil (1950), Proc. Kon. Ned. Akad. Wetensch. A53, 386-392; Sen (1968), J. Amer. Statist. Assoc. 63,
 * 1379-1389; intercept of Conover (1980), Practical Nonparametric Statistics, 2nd ed., p. 267 (page from memory).
 * Variant: ranks rounded, not interpolated. Edges: with very few points the limits are the extreme slopes.
 * Errors: as {@link requirePoints}; throws on a confidence outside 0 to 1.
 * @example fitTheilSen({ x: [1, 2, 3, 4], y: [1, 2, 3, 40] }) // slope 7
 */
export function fitTheilSen({
  x,
  y,
  confidence = 0.95,
}: {
  x: readonly number[];
  y: readonly number[];
  confidence?: number;
}): TheilSen | Declined {
  if (!(confidence > 0 && confidence < 1))
    throw new Error('fitTheilSen requires a confidence between 0 and 1');
  const points = requirePoints('fitTheilSen', { x, y });
  const { n, distinct } = points;
  if (n < 3) return decline('too few points', 'at least 3', `${n}`);
  if (distinct < 2) return decline('all x equal', 'at least 2 different x', '1');
  if (n > MOST_POINTS) return decline('too many points', `at most ${MOST_POINTS}`, `${n}`);

  const slopes = new Float64Array((n * (n - 1)) / 2);
  let pairs = 0;
  for (let i = 0; i < n; i++) {
    const [xi, yi] = [points.x[i] ?? 0, points.y[i] ?? 0];
    for (let j = i + 1; j < n; j++) {
      const dx = (points.x[j] ?? 0) - xi;
      if (dx > 0) slopes[pairs++] = ((points.y[j] ?? 0) - yi) / dx;
    }
  }
  const variance = (n * (n - 1) * (2 * n + 5) - sumTies(y).third - sumTies(x).third) / 18;
  const reach = normalQuantile((1 + confidence) / 2) * Math.sqrt(Math.max(0, variance));
  const lowest = Math.max(roundHalfEven((pairs - reach) / 2) - 1, 0);
  const highest = Math.min(roundHalfEven((pairs + reach) / 2), pairs - 1);
  const [below, above] = [Math.floor((pairs - 1) / 2), Math.floor(pairs / 2)];
  const ranks = [lowest, below, above, highest];
  const sorted = [...ranks].sort((a, b) => a - b);
  const chosen = selectInOrder(slopes.subarray(0, pairs), sorted);
  const valueAt = (rank: number) => chosen[sorted.indexOf(rank)] ?? Number.NaN;
  const slope = (valueAt(below) + valueAt(above)) / 2;
  return {
    n,
    pairs,
    slope,
    intercept: measureMedian(y) - slope * measureMedian(x),
    interceptJoint: measureMedian(y.map((one, i) => one - slope * (x[i] ?? 0))),
    low: valueAt(lowest),
    high: valueAt(highest),
    confidence,
  };
}

function roundHalfEven(value: number): number {
  const below = Math.floor(value);
  const rest = value - below;
  return rest > 0.5 || (rest === 0.5 && below % 2 !== 0) ? below + 1 : below;
}
