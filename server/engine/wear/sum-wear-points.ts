import type { WearPoint, WearPrior } from './wear-model.ts';

/** Points of one clutch by columns, with what every case sums of them and the prior of the healthy slip. */
export interface WearSums {
  n: number;
  kms: Float64Array;
  slips: Float64Array;
  /** information of each point, 1 / rpm^2 */
  w: Float64Array;
  /** sums of w, w y and w y^2 */
  info: number;
  target: number;
  squares: number;
  /** the same of the prior, as of one point more */
  priorInfo: number;
  priorTarget: number;
  priorSquares: number;
}

/**
 * Sums over the points of one clutch that all cases of wear share.
 *
 * w = independence / variance; sums of w, w y, w y^2; prior 1 / sd^2 at the usual healthy slip.
 *
 * @param points       in order of km; units in the names
 * @param prior        of the platform
 * @param independence share of independent information, 0 to 1
 * @returns columns and sums
 * Source: normal prior and likelihood, any textbook. Edges: no points give sums of 0. Errors: none.
 * @example sumWearPoints([{ km: 1, slipRpm: 15, variance: 4 }], defaultWearPrior, 1).target // 3.75
 */
export function sumWearPoints(
  points: readonly WearPoint[],
  prior: Pick<WearPrior, 'baselineRpm' | 'baselineSd'>,
  independence: number,
): WearSums {
  const n = points.length;
  const priorInfo = 1 / prior.baselineSd ** 2;
  const sums: WearSums = {
    n,
    kms: new Float64Array(n),
    slips: new Float64Array(n),
    w: new Float64Array(n),
    info: 0,
    target: 0,
    squares: 0,
    priorInfo,
    priorTarget: priorInfo * prior.baselineRpm,
    priorSquares: priorInfo * prior.baselineRpm ** 2,
  };
  let info = 0;
  let target = 0;
  let squares = 0;
  for (let i = 0; i < n; i++) {
    const { km, slipRpm, variance } = points[i] ?? NO_POINT;
    const w = independence / variance;
    sums.kms[i] = km;
    sums.slips[i] = slipRpm;
    sums.w[i] = w;
    info += w;
    target += w * slipRpm;
    squares += w * slipRpm * slipRpm;
  }
  return Object.assign(sums, { info, target, squares });
}

const NO_POINT: WearPoint = { km: 0, slipRpm: 0, variance: 1 };
