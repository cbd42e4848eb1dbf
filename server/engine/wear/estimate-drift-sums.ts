import { type DriftGrid, UNIT_KM } from './lay-drift-grid.ts';
import type { WearSums } from './sum-wear-points.ts';
import type { Growth } from './wear-model.ts';

/** Sums of one way of growth at each onset: of w g, w g^2 and w y g, g being the growth of the way gone, not scaled. */
export interface DriftSums {
  g1: Float64Array;
  g2: Float64Array;
  gy: Float64Array;
  /** what rounding errors of the sums are in proportion to: the sums of what was added and taken off */
  size1: Float64Array;
  size2: Float64Array;
}

/** Powers of the way gone up to this one are had from moments. */
const MOST_POWER = 6;
const MOMENTS = 2 * MOST_POWER;

/**
 * Sums over the points beyond each onset of a grid, for every way of growth, without raising every point at every onset.
 *
 * Whole powers: moments sum w (x - onset)^p, carried from one onset to the one before by the binomial theorem, all terms
 * positive. Feedback: sum w (e^((x - onset) / v) - 1) falls into e^(-onset / v) and sums of e^(x / v) that are had once.
 * Other powers by logarithms.
 *
 * @param sums of the points
 * @param grid of onsets
 * @returns for each way of the grid, sums that are right but for rounding, some 1e-12 of the sizes beside them
 * Source: own work. Cost: O(onsets) and once O(points), but for other powers O(onsets * points). Edges: an onset beyond all
 * points gives 0. Errors: none; what overflows is not a number.
 * @example estimateDriftSums(sums, grid)[0].g1[0] // as summed point by point
 */
export function estimateDriftSums(sums: WearSums, grid: DriftGrid): DriftSums[] {
  const moments = grid.ways.some(({ growth }) => isWholePower(growth)) ? carryMoments(sums, grid) : null;
  return grid.ways.map(({ growth }) => {
    if (growth.law === 'feedback') return sumFeedback(sums, grid, growth.value);
    return moments !== null && isWholePower(growth)
      ? pickMoments(moments, grid, growth.value)
      : sumPower(sums, grid, growth.value);
  });
}

const isWholePower = ({ law, value }: Growth) =>
  law === 'power' && Number.isInteger(value) && value >= 1 && value <= MOST_POWER;

const onsetAt = ({ fromKm, cellKm }: DriftGrid, o: number) => fromKm + (o + 0.5) * cellKm;

const makeSums = (onsets: number): DriftSums => ({
  g1: new Float64Array(onsets),
  g2: new Float64Array(onsets),
  gy: new Float64Array(onsets),
  size1: new Float64Array(onsets),
  size2: new Float64Array(onsets),
});

/** Moments of w (p to 12) and of w y (p to 6) about each onset, in cells. */
interface Moments {
  ofW: Float64Array;
  ofWy: Float64Array;
}

function carryMoments({ n, kms, slips, w }: WearSums, grid: DriftGrid): Moments {
  const { onsets, cellKm } = grid;
  const ofW = new Float64Array(onsets * (MOMENTS + 1));
  const ofWy = new Float64Array(onsets * (MOST_POWER + 1));
  const mw = new Float64Array(MOMENTS + 1);
  const my = new Float64Array(MOST_POWER + 1);
  let next = n - 1;
  for (let o = onsets - 1; o >= 0; o--) {
    // A cell further back, (x + 1)^p is the sum of the binomials of x^p: the triangle of Pascal, row by row.
    for (let r = 0; r < MOMENTS; r++)
      for (let p = MOMENTS; p > r; p--) mw[p] = (mw[p] ?? 0) + (mw[p - 1] ?? 0);
    for (let r = 0; r < MOST_POWER; r++)
      for (let p = MOST_POWER; p > r; p--) my[p] = (my[p] ?? 0) + (my[p - 1] ?? 0);
    const onsetKm = onsetAt(grid, o);
    for (; next >= 0 && (kms[next] ?? 0) > onsetKm; next--) {
      const x = ((kms[next] ?? 0) - onsetKm) / cellKm;
      const y = slips[next] ?? 0;
      let power = w[next] ?? 0;
      for (let p = 0; p <= MOMENTS; p++) {
        mw[p] = (mw[p] ?? 0) + power;
        if (p <= MOST_POWER) my[p] = (my[p] ?? 0) + power * y;
        power *= x;
      }
    }
    ofW.set(mw, o * (MOMENTS + 1));
    ofWy.set(my, o * (MOST_POWER + 1));
  }
  return { ofW, ofWy };
}

function pickMoments({ ofW, ofWy }: Moments, { onsets, cellKm }: DriftGrid, value: number): DriftSums {
  const sums = makeSums(onsets);
  const unit = (cellKm / UNIT_KM) ** value;
  for (let o = 0; o < onsets; o++) {
    sums.g1[o] = unit * (ofW[o * (MOMENTS + 1) + value] ?? 0);
    sums.g2[o] = unit * unit * (ofW[o * (MOMENTS + 1) + 2 * value] ?? 0);
    sums.gy[o] = unit * (ofWy[o * (MOST_POWER + 1) + value] ?? 0);
  }
  return { ...sums, size1: sums.g1, size2: sums.g2 };
}

function sumFeedback({ n, kms, slips, w }: WearSums, grid: DriftGrid, value: number): DriftSums {
  const sums = makeSums(grid.onsets);
  const lastKm = kms[n - 1] ?? 0;
  let next = n - 1;
  let w0 = 0;
  let w1 = 0;
  let w2 = 0;
  let y0 = 0;
  let y1 = 0;
  for (let o = grid.onsets - 1; o >= 0; o--) {
    const onsetKm = onsetAt(grid, o);
    for (; next >= 0 && (kms[next] ?? 0) > onsetKm; next--) {
      const one = w[next] ?? 0;
      const y = slips[next] ?? 0;
      const q = Math.exp(((kms[next] ?? 0) - lastKm) / value);
      w0 += one;
      w1 += one * q;
      w2 += one * q * q;
      y0 += one * y;
      y1 += one * q * y;
    }
    const e = Math.exp((lastKm - onsetKm) / value);
    sums.g1[o] = e * w1 - w0;
    sums.g2[o] = e * e * w2 - 2 * e * w1 + w0;
    sums.gy[o] = e * y1 - y0;
    sums.size1[o] = e * w1 + w0;
    sums.size2[o] = e * e * w2 + 2 * e * w1 + w0;
  }
  return sums;
}

function sumPower({ n, kms, slips, w }: WearSums, grid: DriftGrid, value: number): DriftSums {
  const sums = makeSums(grid.onsets);
  for (let o = 0; o < grid.onsets; o++) {
    const onsetKm = onsetAt(grid, o);
    let g1 = 0;
    let g2 = 0;
    let gy = 0;
    for (let i = n - 1; i >= 0 && (kms[i] ?? 0) > onsetKm; i--) {
      const g = Math.exp(value * Math.log(((kms[i] ?? 0) - onsetKm) / UNIT_KM));
      const wg = (w[i] ?? 0) * g;
      g1 += wg;
      g2 += wg * g;
      gy += wg * (slips[i] ?? 0);
    }
    sums.g1[o] = g1;
    sums.g2[o] = g2;
    sums.gy[o] = gy;
  }
  return { ...sums, size1: sums.g1, size2: sums.g2 };
}
