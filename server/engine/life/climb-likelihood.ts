import { CholeskyDecomposition, Matrix } from 'ml-matrix';

export interface Height {
  value: number;
  gradient: number[];
  /** less the second derivatives */
  information: Matrix;
}

export interface Summit extends Height {
  at: number[];
  /** the last step that was taken: where the likelihood rises for ever, the way in which */
  step: number[];
  hasSettled: boolean;
}

/** Twice the log likelihood that a full step would gain: what is left after it is of the size of its square. */
const SETTLED = 1e-9;
/** What the sum of many terms loses of itself: a value so little lower is not lower. */
const ROUNDING = 1e-12;
const MOST_HALVINGS = 40;
const MOST_RIDGES = 60;

/**
 * Newton's method with step halving, towards the maximum of a log likelihood.
 *
 * step = I^-1 g; where I is not positive definite, (I + ridge diag)^-1 g with a ridge that grows until it is (Levenberg);
 * halved while the value falls or is no number.
 *
 * @param start     values of the parameters, of a size near 1 and with a finite value
 * @param evaluate  value, gradient and observed information there
 * @param mostSteps after which it is given up
 * @returns the last place with what `evaluate` says of it, the last step, and whether it settled: twice the gain of the last
 * step was below 1e-9
 * Source: Nocedal and Wright (2006), Numerical Optimization, sections 3.4 and 10.3 (from memory); Cholesky by ml-matrix.
 * Edges: a start at the maximum settles at once. Errors: none; numbers that are none end it unsettled.
 * @example climbLikelihood([0], ([x = 0]) => ({ value: -((x - 3) ** 2), gradient: [-2 * (x - 3)], information: new Matrix([[2]]) }), 20) // at [3]
 */
export function climbLikelihood(
  start: readonly number[],
  evaluate: (at: readonly number[]) => Height,
  mostSteps: number,
): Summit {
  let at = [...start];
  let here = evaluate(at);
  let last = at.map(() => 0);
  for (let round = 0; round < mostSteps; round++) {
    const found = findStep(here);
    if (found === null) break;
    const { step, isPlain } = found;
    const gain = step.reduce((sum, one, i) => sum + one * (here.gradient[i] ?? 0), 0);
    const isLast = isPlain && gain < SETTLED;
    const reached = goUp(at, here, step, isLast, evaluate);
    if (reached === null) return { ...here, at, step, hasSettled: isLast };
    last = reached.at.map((one, i) => one - (at[i] ?? 0));
    ({ at } = reached);
    here = reached.height;
    if (isLast) return { ...here, at, step: last, hasSettled: true };
  }
  return { ...here, at, step: last, hasSettled: false };
}

function findStep({ gradient, information }: Height): { step: number[]; isPlain: boolean } | null {
  const numbers = [...gradient, ...information.to1DArray()];
  if (!numbers.every(Number.isFinite)) return null;
  const target = Matrix.columnVector(gradient);
  let ridge = 0;
  for (let tries = 0; tries < MOST_RIDGES; tries++) {
    const matrix = information.clone();
    for (let i = 0; i < matrix.rows; i++)
      matrix.set(i, i, matrix.get(i, i) + ridge * (Math.abs(information.get(i, i)) || 1));
    const cholesky = new CholeskyDecomposition(matrix);
    if (cholesky.isPositiveDefinite()) {
      const step = cholesky.solve(target).to1DArray();
      if (step.every(Number.isFinite)) return { step, isPlain: ridge === 0 };
    }
    ridge = ridge === 0 ? 1e-3 : 4 * ridge;
  }
  return null;
}

function goUp(
  from: readonly number[],
  here: Height,
  step: readonly number[],
  isLast: boolean,
  evaluate: (at: readonly number[]) => Height,
) {
  const least = isLast ? Number.NEGATIVE_INFINITY : here.value - ROUNDING * Math.abs(here.value);
  let share = 1;
  for (let halving = 0; halving < MOST_HALVINGS; halving++) {
    const at = from.map((one, i) => one + share * (step[i] ?? 0));
    const height = evaluate(at);
    if (Number.isFinite(height.value) && height.value >= least) return { at, height };
    share /= 2;
  }
  return null;
}
