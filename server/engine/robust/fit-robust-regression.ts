import { Matrix, QrDecomposition } from 'ml-matrix';
import { type Declined, decline } from '#server/engine/declined.ts';
import { measureWeightedMedian } from './measure-weighted-median.ts';

export interface RobustRegressionQuestion {
  /** one row of regressors for each value of y, without the constant */
  rows: readonly (readonly number[])[];
  y: readonly number[];
  /** above 0, proportional to 1 / variance of each y; without it each weighs 1 */
  weight?: readonly number[];
  psi?: 'huber' | 'bisquare';
  intercept?: boolean;
}

export interface RobustRegression {
  n: number;
  /** the constant first, where there is one; unit of y per unit of the regressor */
  coefficients: number[];
  se: number[];
  /** robust standard deviation of the residuals, unit of y */
  scale: number;
  /** weight that each point was left with, 0 to 1 */
  weights: number[];
}

const HUBER_K = 1.345;
const BISQUARE_C = 4.685;
/** Median of |u| of the standard normal distribution, to the four places usual for it. */
const NORMAL_MEDIAN = 0.6745;
const MOST_STEPS = 5000;

const shapes = {
  huber: {
    weigh: (u: number) => Math.min(1, HUBER_K / Math.abs(u)),
    slope: (u: number) => (Math.abs(u) <= HUBER_K ? 1 : 0),
  },
  bisquare: {
    weigh: (u: number) => Math.max(0, 1 - (u / BISQUARE_C) ** 2) ** 2,
    slope: (u: number) => {
      const t = (u / BISQUARE_C) ** 2;
      return t < 1 ? (1 - t) * (1 - 5 * t) : 0;
    },
  },
} as const;

/**
 * Robust regression: M-estimate by iteratively reweighted least squares.
 *
 * From least squares on: s = median|r| / 0.6745 (about zero), weights psi(r / s) / (r / s) with Huber k = 1.345 or
 * Tukey's bisquare c = 4.685, weighted least squares, until the coefficients stand.
 * se = sqrt(diag((X'X)^-1)) sqrt(sum (w r)^2 / (n - p)) kappa / m, m = mean psi',
 * kappa = 1 + p var(psi') / (n m^2), var with n - 1. With weights, r and X are multiplied by their roots.
 *
 * @param rows, y, weight, psi, intercept see {@link RobustRegressionQuestion}; psi 'huber', intercept true
 * @returns the fit, or declined: not more points than coefficients, regressors that depend on each other, or no
 * convergence
 * Source: Huber (1981), Robust Statistics, sections 7.6 and 7.8 with correction factor 6.5 of chapter 7; Venables
 * and Ripley (2002), Modern Applied Statistics with S, section 6.5 (pages from memory).
 * Edges: a far value at an end of the regressors still pulls (no M-estimate stops that); an exact fit of more than half the points ends with scale 0 and standard errors 0. The bisquare has
 * several solutions: it starts from least squares. Errors: throws on unequal lengths, values that are not finite
 * and weights of 0 or less.
 * @example fitRobustRegression({ rows: [[0], [1], [2], [3], [4]], y: [0, 1, 40, 3, 4] }) // slope 1, scale 0
 */
export function fitRobustRegression({
  rows,
  y,
  weight,
  psi = 'huber',
  intercept = true,
}: RobustRegressionQuestion): RobustRegression | Declined {
  const n = y.length;
  const width = rows[0]?.length ?? 0;
  if (rows.length !== n || rows.some((row) => row.length !== width)) {
    throw new Error('fitRobustRegression requires as many rows as y, all of one length');
  }
  if (!y.every(Number.isFinite) || !rows.every((row) => row.every(Number.isFinite))) {
    throw new Error('fitRobustRegression requires finite values');
  }
  if (weight !== undefined && (weight.length !== n || !weight.every((w) => Number.isFinite(w) && w > 0))) {
    throw new Error('fitRobustRegression requires a weight above 0 for each y');
  }
  const p = width + (intercept ? 1 : 0);
  if (n <= p) return decline('too few points', `at least ${p + 1}`, `${n}`);

  const root = y.map((_, i) => Math.sqrt(weight?.[i] ?? 1));
  const design = new Matrix(rows.map((row) => (intercept ? [1, ...row] : [...row])));
  const target = Matrix.columnVector([...y]);
  for (let i = 0; i < n; i++) {
    design.mulRow(i, root[i] ?? 1);
    target.mulRow(i, root[i] ?? 1);
  }
  const size = Array.from({ length: p }, (_, j) => Math.hypot(...design.getColumn(j)));
  design.divRowVector(size.map((one) => one || 1));
  const inverse = invertCross(design);
  if (inverse === null) return decline('regressors depend on each other', `rank ${p}`, 'a lower one');

  const { weigh, slope } = shapes[psi];
  let weights = y.map(() => 1);
  let solution = solveWeighted(design, target, weights);
  for (let step = 0; step < MOST_STEPS; step++) {
    const residuals = Matrix.sub(target, design.mmul(solution)).to1DArray();
    const scale = measureWeightedMedian(residuals.map(Math.abs)) / NORMAL_MEDIAN;
    const exact = scale <= 1e-10 * Math.max(...target.to1DArray().map(Math.abs));
    const reached = exact ? 0 : scale;
    if (!exact) weights = residuals.map((r) => (r === 0 ? 1 : weigh(r / scale)));
    const next = exact ? solution : solveWeighted(design, target, weights);
    const moved = Matrix.sub(next, solution).norm();
    solution = next;
    if (!exact && moved > 1e-11 * Math.max(solution.norm(), scale)) continue;
    const slopes = residuals.map((r) => (exact ? 1 : slope(r / scale)));
    const m = slopes.reduce((a, b) => a + b, 0) / n;
    const variance = slopes.reduce((a, b) => a + (b - m) ** 2, 0) / (n - 1);
    const squares = residuals.reduce((sum, r, i) => sum + ((weights[i] ?? 1) * r) ** 2, 0);
    const factor = exact ? 0 : (Math.sqrt(squares / (n - p)) * (1 + (p * variance) / (n * m * m))) / m;
    return {
      n,
      coefficients: solution.to1DArray().map((one, j) => one / (size[j] || 1)),
      se: inverse.diagonal().map((one, j) => (Math.sqrt(one) * factor) / (size[j] || 1)),
      scale: reached,
      weights,
    };
  }
  return decline('no convergence', 'a fit that stands', `${MOST_STEPS} steps`);
}

function solveWeighted(design: Matrix, target: Matrix, weights: readonly number[]): Matrix {
  const left = design.clone();
  const right = target.clone();
  weights.forEach((w, i) => {
    left.mulRow(i, Math.sqrt(w));
    right.mulRow(i, Math.sqrt(w));
  });
  return new QrDecomposition(left).solve(right);
}

/** (X'X)^-1 by the triangular factor; null where a column depends on the others. */
function invertCross(design: Matrix): Matrix | null {
  const r = new QrDecomposition(design).upperTriangularMatrix;
  const least = Math.min(...r.diagonal().map(Math.abs));
  if (!(least > 1e-10)) return null;
  const p = r.columns;
  const inverse = Matrix.eye(p);
  for (let j = p - 1; j >= 0; j--) {
    for (let i = p - 1; i > j; i--) {
      for (let c = 0; c < p; c++) inverse.set(j, c, inverse.get(j, c) - r.get(j, i) * inverse.get(i, c));
    }
    inverse.mulRow(j, 1 / r.get(j, j));
  }
  return inverse.mmul(inverse.transpose());
}
