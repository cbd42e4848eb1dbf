import type { ObservedLife } from './life-model.ts';

/** Weibull shape of converter life where nothing tells: an assumption, no source. */
export const ASSUMED_SHAPE = 2.2;
/** How far the shape of a fleet may lie from it: standard deviation of its logarithm. Own choice. */
const SPREAD = 0.5;
const LEAST_SHAPE = 0.2;
const MOST_SHAPE = 20;
/** Halvings of the range of log shape: to 1e-13. */
const STEPS = 46;

/**
 * Weibull shape that several groups of lives share, each group with a scale of its own.
 *
 * Maximum of the penalised profile log-likelihood over log k, by bisection of its slope:
 * sum over groups of d * (log k - log T(k)), + (k - 1) * sum of log x over failures, - (log(k / 2.2) / 0.5)^2 / 2, with
 * T(k) = sum(exit^k - entry^k) and d failures of the group. The last term holds the shape of a fleet with three failures
 * near the assumed one; it weighs as much as two or three failures.
 *
 * @param groups lives of each group, mileages in any unit, exit above entry
 * @returns shape; varLogShape, inverse of the curvature there
 * Source: profile likelihood of the Weibull, Lawless 2003, section 5.2, with late entry and strata; the normal prior on
 * the logarithm of the shape is our own. Edges: groups without a failure add nothing; without any failure the shape is
 * the assumed one; kept within 0.2 and 20. Errors: none.
 * @example fitSharedShape([]) // { shape: 2.2, varLogShape: 0.25 }
 */
export function fitSharedShape(groups: readonly (readonly ObservedLife[])[]): {
  shape: number;
  varLogShape: number;
} {
  const failing = groups.filter((lives) => lives.some(({ event }) => event));
  const most = failing.flat().reduce((largest, { exit }) => Math.max(largest, exit), 0);
  const strata = failing.map((lives) =>
    lives.map(({ entry, exit, event, count }) => ({
      logEntry: entry > 0 ? Math.log(entry / most) : null,
      logExit: Math.log(exit / most),
      failures: event ? count : 0,
      count,
    })),
  );
  const slopeAt = (logShape: number): number => {
    const shape = Math.exp(logShape);
    let slope = -Math.log(shape / ASSUMED_SHAPE) / SPREAD ** 2;
    for (const lives of strata) {
      let failures = 0;
      let logs = 0;
      let use = 0;
      let useByLog = 0;
      for (const life of lives) {
        const exit = life.count * Math.exp(shape * life.logExit);
        const entry = life.logEntry === null ? 0 : life.count * Math.exp(shape * life.logEntry);
        use += exit - entry;
        useByLog += exit * life.logExit - entry * (life.logEntry ?? 0);
        failures += life.failures;
        logs += life.failures * life.logExit;
      }
      slope += failures + shape * (logs - (failures * useByLog) / use);
    }
    return slope;
  };
  let low = Math.log(LEAST_SHAPE);
  let high = Math.log(MOST_SHAPE);
  for (let i = 0; i < STEPS; i++) {
    const middle = (low + high) / 2;
    if (slopeAt(middle) > 0) low = middle;
    else high = middle;
  }
  const best = (low + high) / 2;
  const step = 1e-4;
  const curvature = (slopeAt(best - step) - slopeAt(best + step)) / (2 * step);
  return { shape: Math.exp(best), varLogShape: 1 / Math.max(curvature, 1 / SPREAD ** 2) };
}
