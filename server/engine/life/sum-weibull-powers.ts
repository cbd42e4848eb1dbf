import type { ObservedLife } from './life-model.ts';

/** Lives as columns of logarithms, exits and entries in parts of the largest exit. */
export interface LogLives {
  largest: number;
  logExit: Float64Array;
  /** -Infinity where it was seen from 0 on */
  logEntry: Float64Array;
  count: Float64Array;
  isLate: boolean;
  /** failures, counted by count; of them the mean of log(exit / largest), and its standard deviation */
  events: number;
  meanLogFailure: number;
  sdLogFailure: number;
}

/**
 * Life data as columns of logarithms, for sums of powers.
 *
 * log(exit / largest) and log(entry / largest), so that powers neither overflow nor all vanish.
 *
 * @param lives in any order, as {@link ObservedLife}
 * @returns columns, and mean and standard deviation of the logarithms of the failures (NaN without failures)
 * Source: own rule. Edges: no lives give empty columns. Errors: none, the caller has checked.
 * @example takeLogsOfLives([{ entry: 0, exit: 5, event: true, count: 2 }]).meanLogFailure // 0
 */
export function takeLogsOfLives(lives: readonly ObservedLife[]): LogLives {
  const size = lives.length;
  const logExit = new Float64Array(size);
  const logEntry = new Float64Array(size);
  const count = new Float64Array(size);
  let largest = 0;
  for (const life of lives) largest = Math.max(largest, life.exit);
  let isLate = false;
  let events = 0;
  let sum = 0;
  for (const [i, life] of lives.entries()) {
    const log = Math.log(life.exit / largest);
    logExit[i] = log;
    logEntry[i] = Math.log(life.entry / largest);
    count[i] = life.count;
    if (life.entry > 0) isLate = true;
    if (!life.event) continue;
    events += life.count;
    sum += life.count * log;
  }
  const meanLogFailure = sum / events;
  let squares = 0;
  for (const [i, life] of lives.entries())
    if (life.event) squares += life.count * ((logExit[i] ?? 0) - meanLogFailure) ** 2;
  const sdLogFailure = Math.sqrt(squares / events);
  return { largest, logExit, logEntry, count, isLate, events, meanLogFailure, sdLogFailure };
}

/**
 * Sums of powers in the Weibull likelihood, with first and second derivative by the shape.
 *
 * A = sum count (X^shape - E^shape), X and E exit and entry in parts of the largest exit;
 * A' = sum count (X^shape log X - E^shape log E), A'' with the squares of the logarithms.
 *
 * @param columns of {@link takeLogsOfLives}
 * @param shape   above 0
 * @returns A, and A' / A and A'' / A - (A' / A)^2: mean and variance of log mileage, tilted by the shape
 * Source: Meeker and Escobar (1998), section 11.6 for late entry (from memory).
 * Edges: below a shape of some 1e-6 late entries lose their digits. Errors: none.
 * @example sumWeibullPowers(takeLogsOfLives([{ entry: 0, exit: 5, event: true, count: 2 }]), 3) // { a: 2, mean: 0, variance: 0 }
 */
export function sumWeibullPowers(
  { logExit, logEntry, count, isLate }: LogLives,
  shape: number,
): { a: number; mean: number; variance: number } {
  let a = 0;
  let first = 0;
  let second = 0;
  for (let i = 0; i < count.length; i++) {
    const log = logExit[i] ?? 0;
    const power = (count[i] ?? 0) * Math.exp(shape * log);
    a += power;
    first += power * log;
    second += power * log * log;
    const before = isLate ? (logEntry[i] ?? 0) : Number.NEGATIVE_INFINITY;
    if (before === Number.NEGATIVE_INFINITY) continue;
    const less = (count[i] ?? 0) * Math.exp(shape * before);
    a -= less;
    first -= less * before;
    second -= less * before * before;
  }
  const mean = first / a;
  return { a, mean, variance: second / a - mean * mean };
}
