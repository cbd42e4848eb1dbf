import { type Declined, decline } from '#server/engine/declined.ts';
import { normalQuantile } from '#server/engine/distributions/normal-quantile.ts';
import { measureMedian } from '#server/engine/robust/measure-median.ts';
import type { OrderedPoints } from './count-slopes.ts';
import { measureKendall } from './measure-kendall.ts';
import { orderPoints } from './order-points.ts';
import { requirePoints } from './require-points.ts';
import { selectSlopes } from './select-slopes.ts';
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

export interface TheilSenQuestion {
  x: readonly number[];
  y: readonly number[];
  /** of the limits, 0 to 1 */
  confidence?: number;
  /** rounded: the slopes at Sen's ranks, rounded to whole ones; interpolated: Gilbert's, between neighbouring ranks */
  limits?: 'rounded' | 'interpolated';
}

/**
 * Theil-Sen line: median of the slopes of all pairs, with Sen's confidence limits.
 *
 * slope = median of (y_j - y_i) / (x_j - x_i) over pairs with different x. Limits: the N slopes in order, 1-based
 * ranks round((N - z sigma) / 2) and round((N + z sigma) / 2) + 1, half to even,
 * sigma^2 = {n(n-1)(2n+5) - sum t(t-1)(2t+5) - sum u(u-1)(2u+5)} / 18, t and u the ties in y and x.
 * Interpolated limits: ranks (N - z sigma) / 2 and (N + z sigma) / 2 + 1, z sigma with the variance of
 * {@link measureKendall}, linearly between the slopes beside them.
 *
 * @param x, y       in any order
 * @param confidence of the limits, 0 to 1, default 0.95
 * @param limits     see {@link TheilSenQuestion}, default rounded
 * @returns the line, or declined below 3 points or with all x equal
 * Source: Theil (1950), Proc. Kon. Ned. Akad. Wetensch. A53, 386-392; Sen (1968), J. Amer. Statist. Assoc. 63,
 * 1379-1389; interpolated limits, Gilbert (1987), Statistical Methods for Environmental Pollution Monitoring, section
 * 16.5; intercept of Conover (1980), Practical Nonparametric Statistics, 2nd ed., p. 267 (page from memory).
 * Variant: slopes are selected, not listed, above 256 points, exactly ({@link selectSlopes}); cost O(n log n).
 * Edges: with very few points the limits are the extreme slopes.
 * Errors: as {@link requirePoints}; throws on a confidence outside 0 to 1.
 * @example fitTheilSen({ x: [1, 2, 3, 4], y: [1, 2, 3, 40] }) // slope 7
 */
export function fitTheilSen({
  x,
  y,
  confidence = 0.95,
  limits = 'rounded',
}: TheilSenQuestion): TheilSen | Declined {
  if (!(confidence > 0 && confidence < 1))
    throw new Error('fitTheilSen requires a confidence between 0 and 1');
  const points = orderPoints(requirePoints('fitTheilSen', { x, y }));
  const { n, distinct } = points;
  if (n < 3) return decline('too few points', 'at least 3', `${n}`);
  if (distinct < 2) return decline('all x equal', 'at least 2 different x', '1');

  const [tiesX, tiesY] = [sumTies(x), sumTies(y)];
  const pairs = (n * (n - 1) - tiesX.first) / 2;
  const variance = (n * (n - 1) * (2 * n + 5) - tiesY.third - tiesX.third) / 18;
  const quantile = normalQuantile((1 + confidence) / 2);
  const reach = quantile * Math.sqrt(Math.max(0, variance));
  const inside = (rank: number) => Math.min(pairs - 1, Math.max(0, rank));
  const [middle, next] = [Math.floor((pairs - 1) / 2), Math.floor(pairs / 2)];
  const valueAt = selectAll(points, [middle, next, ...(limits === 'rounded' ? roundRanks() : splitRanks())]);
  const slope = (valueAt(middle) + valueAt(next)) / 2;
  const [low, high] = limits === 'rounded' ? roundRanks().map(valueAt) : betweenRanks().map(interpolate);
  return {
    n,
    pairs,
    slope,
    intercept: measureMedian(y) - slope * measureMedian(x),
    interceptJoint: measureMedian(y.map((one, i) => one - slope * (x[i] ?? 0))),
    low: low ?? Number.NaN,
    high: high ?? Number.NaN,
    confidence,
  };

  function roundRanks(): number[] {
    return [roundHalfEven((pairs - reach) / 2) - 1, roundHalfEven((pairs + reach) / 2)].map(inside);
  }
  function betweenRanks(): number[] {
    const kendall = measureKendall(x, y);
    const c = 'declined' in kendall ? 0 : quantile * Math.sqrt(kendall.varS);
    return [(pairs - c) / 2 - 1, (pairs + c) / 2].map(inside);
  }
  function splitRanks(): number[] {
    return betweenRanks().flatMap((rank) => [Math.floor(rank), Math.ceil(rank)]);
  }
  function interpolate(rank: number): number {
    const [below, above] = [valueAt(Math.floor(rank)), valueAt(Math.ceil(rank))];
    return below + (rank - Math.floor(rank)) * (above - below);
  }
}

/** The slopes at these ranks, found together. */
function selectAll(points: OrderedPoints, ranks: readonly number[]): (rank: number) => number {
  const sorted = [...new Set(ranks)].sort((a, b) => a - b);
  const slopes = selectSlopes(points, sorted);
  return (rank) => slopes[sorted.indexOf(rank)] ?? Number.NaN;
}

function roundHalfEven(value: number): number {
  const below = Math.floor(value);
  const rest = value - below;
  return rest > 0.5 || (rest === 0.5 && below % 2 !== 0) ? below + 1 : below;
}
