import type { DriftSums } from './estimate-drift-sums.ts';
import { type DriftGrid, UNIT_KM } from './lay-drift-grid.ts';
import type { WearSums } from './sum-wear-points.ts';

/** No clutch slips by this many limits, and the sums of a case that says so would drown in rounding. */
export const MOST_LIMITS = 20;
/** Error of the estimated sums against their sizes: the largest seen, of 130,000 on simulated fleets, was 4e-13. */
const ERROR = 1e-10;
/** Error of a logarithm beside. */
const LOG_ERROR = 1e-4;

/** How likely the cases of a grid can be at the most, by rows: one onset and one way of growth. */
export interface RowBounds {
  /** no case of the row has a larger logarithm; row = onset * ways + way */
  most: Float64Array;
  /** the likeliest case of all has this logarithm at the least */
  bestAtLeast: number;
  /** g of the way from each row's onset to the last point */
  now: Float64Array;
}

/**
 * Bounds of the log weights of a grid of drifts, row by row, from estimated sums.
 *
 * log = -1/2 (left + ln(I / I0)) + log prior, with the sums over the points of w g, w g^2 and w y g; each bound gives way by
 * what an error of 1e-10 of the sums can make of it: |e left| <= e(squares) + 2 |a| e(target) + a^2 e(information).
 *
 * @param sums      of the points
 * @param grid      of onsets and spans
 * @param estimates of the sums, of estimateDriftSums
 * @param limitRpm  limit, rpm
 * @param enough    a case whose logarithm is below need not be bounded closely
 * @returns bounds
 * Source: propagation of error of first order, any textbook. Edges: where a sum is not a number the bound is infinite.
 * Errors: none.
 * @example boundDriftRows(sums, grid, estimates, 150, -20).most[0] // not below the best case of the first row
 */
export function boundDriftRows(
  sums: WearSums,
  grid: DriftGrid,
  estimates: readonly DriftSums[],
  limitRpm: number,
  enough: number,
): RowBounds {
  const { n, priorInfo, priorTarget, priorSquares } = sums;
  const count = grid.ways.length;
  const lastKm = sums.kms[n - 1] ?? 0;
  const most = new Float64Array(grid.onsets * count).fill(Number.NEGATIVE_INFINITY);
  const now = new Float64Array(grid.onsets * count);
  const info0 = sums.info + priorInfo;
  const target0 = sums.target + priorTarget;
  const squares0 = sums.squares + priorSquares;
  let bestAtLeast = Number.NEGATIVE_INFINITY;
  for (let way = 0; way < count; way++) {
    const { growth, logShare, s: scales } = grid.ways[way] ?? NO_WAY;
    const { g1: all1, g2: all2, gy: allY, size1, size2 } = estimates[way] ?? NO_SUMS;
    for (let o = 0; o < grid.onsets; o++) {
      const goneKm = Math.max(0, lastKm - (grid.fromKm + (o + 0.5) * grid.cellKm));
      const gNow =
        growth.law === 'feedback' ? Math.expm1(goneKm / growth.value) : (goneKm / UNIT_KM) ** growth.value;
      const g1 = all1[o] ?? 0;
      const g2 = all2[o] ?? 0;
      const gy = allY[o] ?? 0;
      const e1 = ERROR * (size1[o] ?? 0);
      const e2 = ERROR * (size2[o] ?? 0);
      const ey = ERROR * Math.sqrt(sums.squares * (size2[o] ?? 0));
      let top = Number.NEGATIVE_INFINITY;
      // From the longest span down: soon no limit is far enough.
      for (let k = grid.spans - 1; k >= 0; k--) {
        const s = scales[k] ?? Number.NaN;
        if (!(s > 0)) continue;
        if (!(s * gNow <= MOST_LIMITS)) break;
        const sLimit = s * limitRpm;
        const info = info0 - 2 * s * g1 + s * s * g2;
        const mean = (target0 - s * gy - limitRpm * (s * g1 - s * s * g2)) / info;
        const left = squares0 - 2 * sLimit * gy + sLimit * sLimit * g2 - mean * mean * info;
        const errorInfo = 2 * s * e1 + s * s * e2;
        const errorTarget = s * ey + limitRpm * (s * e1 + s * s * e2);
        const error =
          LOG_ERROR +
          sLimit * ey +
          0.5 * sLimit * sLimit * e2 +
          Math.abs(mean) * errorTarget +
          0.5 * mean * mean * errorInfo;
        let log = -0.5 * left + grid.logCell + logShare + (grid.densities[k] ?? 0);
        // The logarithm, 0 at the least, can only take from this: most cases need none.
        if (!(log + error <= enough)) {
          log -= 0.5 * Math.log(info / priorInfo);
          if (log - error > bestAtLeast) bestAtLeast = log - error;
        }
        const upper = log + error;
        // What is not a number bounds nothing.
        if (upper > top) top = upper;
        else if (!(upper <= top)) top = Number.POSITIVE_INFINITY;
      }
      most[o * count + way] = top;
      now[o * count + way] = gNow;
    }
  }
  return { most, bestAtLeast, now };
}

const NO_WAY = {
  growth: { law: 'power', value: 1 } as const,
  logShare: 0,
  s: new Float64Array(0),
};
const NONE = new Float64Array(0);
const NO_SUMS: DriftSums = { g1: NONE, g2: NONE, gy: NONE, size1: NONE, size2: NONE };
