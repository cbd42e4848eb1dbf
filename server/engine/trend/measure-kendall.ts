import { type Declined, decline } from '#server/engine/declined.ts';
import { orderPoints } from './order-points.ts';
import { requirePoints } from './require-points.ts';
import { sumTies } from './sum-ties.ts';

export interface Kendall {
  n: number;
  /** concordant less discordant pairs */
  s: number;
  concordant: number;
  discordant: number;
  /** variance of S without any association, corrected for ties in x and y */
  varS: number;
  tauA: number;
  tauB: number;
}

/**
 * Kendall's S and rank correlation of two series, with the variance of S.
 *
 * S = C - D = sum over i < j of sign(x_j - x_i) sign(y_j - y_i); tau-a = S / n0;
 * tau-b = S / sqrt((n0 - n1)(n0 - n2)), n0 = n(n-1)/2, n1 and n2 the pairs tied in x and y.
 * var S = {n(n-1)(2n+5) - sum t(t-1)(2t+5) - sum u(u-1)(2u+5)} / 18
 * + [sum t(t-1)(t-2)][sum u(u-1)(u-2)] / {9n(n-1)(n-2)} + [sum t(t-1)][sum u(u-1)] / {2n(n-1)}.
 *
 * @param x, y in any order, any units
 * @returns counts, variance and both coefficients, or declined below 3 points or with all x or all y equal
 * Source: Kendall (1975), Rank Correlation Methods, 4th ed., chapters 1, 3 and 4; counting by merging, Knight (1966),
 * J. Amer. Statist. Assoc. 61, 436-439. Cost O(n log n). Edges: as said. Errors: as {@link requirePoints}.
 * @example measureKendall([1, 2, 3, 4], [1, 3, 2, 4]) // s 4, tauB 0.667
 */
export function measureKendall(x: readonly number[], y: readonly number[]): Kendall | Declined {
  const points = requirePoints('measureKendall', { x, y });
  const { n, distinct } = points;
  if (n < 3) return decline('too few points', 'at least 3', `${n}`);
  if (distinct < 2) return decline('all x equal', 'at least 2 different x', '1');
  const [tiesX, tiesY] = [sumTies(x), sumTies(y)];
  if (tiesY.first === n * (n - 1)) return decline('all y equal', 'at least 2 different y', '1');
  // Within equal x the pairs count neither way, so their y are put in order.
  const ordered = orderPoints(points).y;
  const both = sumTies([...tieLabels(points.x, ordered)]).first / 2;
  const discordant = countFalls(ordered, new Float64Array(n), 0, n);
  const n0 = (n * (n - 1)) / 2;
  const concordant = n0 - tiesX.first / 2 - tiesY.first / 2 + both - discordant;
  const s = concordant - discordant;
  const varS =
    (n * (n - 1) * (2 * n + 5) - tiesY.third - tiesX.third) / 18 +
    (tiesY.second * tiesX.second) / (9 * n * (n - 1) * (n - 2)) +
    (tiesY.first * tiesX.first) / (2 * n * (n - 1));
  return {
    n,
    s,
    concordant,
    discordant,
    varS,
    tauA: s / n0,
    tauB: s / Math.sqrt((n0 - tiesX.first / 2) * (n0 - tiesY.first / 2)),
  };
}

/** One number for each different pair (x, y), of pairs in order. */
function tieLabels(x: Float64Array, y: Float64Array): Float64Array {
  let label = 0;
  return x.map((one, i) => {
    if (i > 0 && (one !== x[i - 1] || y[i] !== y[i - 1])) label++;
    return label;
  });
}

/** Pairs in which a later value is smaller; sorts `values` from `from` to before `to` on the way. */
function countFalls(values: Float64Array, spare: Float64Array, from: number, to: number): number {
  if (to - from < 2) return 0;
  const middle = (from + to) >> 1;
  let falls = countFalls(values, spare, from, middle) + countFalls(values, spare, middle, to);
  let [left, right] = [from, middle];
  for (let i = from; i < to; i++) {
    const takeLeft = right >= to || (left < middle && (values[left] ?? 0) <= (values[right] ?? 0));
    if (!takeLeft) falls += middle - left;
    spare[i] = (takeLeft ? values[left++] : values[right++]) ?? 0;
  }
  values.set(spare.subarray(from, to), from);
  return falls;
}
