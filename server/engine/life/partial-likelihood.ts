import { Matrix } from 'ml-matrix';
import type { Height } from './climb-likelihood.ts';
import type { ObservedLife } from './life-model.ts';
import { type PlacedLives, placeLives } from './place-lives.ts';
import { sumEfronTerms } from './sum-efron-terms.ts';

export interface RiskSets {
  placed: PlacedLives;
  /** failures at exit, and covariates, a row a life, in columns: a hundred thousand objects are slow to walk */
  count: Float64Array;
  isEvent: Uint8Array;
  values: Float64Array;
  /** lives by the last mileage at which they were at risk, and by the one before their first */
  byLast: Buckets;
  byBefore: Buckets;
  covariates: number;
}

interface Buckets {
  start: Int32Array;
  life: Int32Array;
}

/**
 * Risk sets for a partial likelihood, in an order in which each is had from the one above it.
 *
 * Lives at risk at the j-th mileage of the failures: from <= j < to. Going down, at j those with to - 1 = j join, and those with
 * from - 1 = j leave.
 *
 * @param lives  in any order
 * @param values covariates of a size near 1, row by row, a row a life
 * @returns both orders, by counting
 * Source: own arrangement. Edges: lives that are at risk at no failure are in neither. Errors: none.
 * @example arrangeRiskSets([{ entry: 0, exit: 5, event: true, count: 1 }], new Float64Array([1])).covariates // 1
 */
export function arrangeRiskSets(lives: readonly ObservedLife[], values: Float64Array): RiskSets {
  const placed = placeLives(lives);
  const { x, from, to } = placed;
  const isEver = (i: number) => (from[i] ?? 0) < (to[i] ?? 0);
  return {
    placed,
    count: Float64Array.from(lives, ({ count }) => count),
    isEvent: Uint8Array.from(lives, ({ event }) => (event ? 1 : 0)),
    values,
    byLast: bucket(x.length, lives.length, (i) => (isEver(i) ? (to[i] ?? 0) - 1 : -1)),
    byBefore: bucket(x.length, lives.length, (i) => (isEver(i) ? (from[i] ?? 0) - 1 : -1)),
    covariates: lives.length === 0 ? 0 : values.length / lives.length,
  };
}

function bucket(buckets: number, size: number, of: (i: number) => number): Buckets {
  const start = new Int32Array(buckets + 1);
  for (let i = 0; i < size; i++) {
    const j = of(i);
    if (j >= 0) start[j + 1] = (start[j + 1] ?? 0) + 1;
  }
  for (let j = 0; j < buckets; j++) start[j + 1] = (start[j + 1] ?? 0) + (start[j] ?? 0);
  const next = start.slice();
  const life = new Int32Array(start[buckets] ?? 0);
  for (let i = 0; i < size; i++) {
    const j = of(i);
    if (j < 0) continue;
    life[next[j] ?? 0] = i;
    next[j] = (next[j] ?? 0) + 1;
  }
  return { start, life };
}

/**
 * Cox's partial likelihood with Efron's ties and late entry, with its derivatives.
 *
 * At each mileage with d failures: log L += sum over failures of b x - sum over l < d of log(S - (l / d) T), S the sum of
 * exp(b x) over all at risk, T over those that fail.
 *
 * @param sets of {@link arrangeRiskSets}
 * @param beta a coefficient a covariate
 * @returns value, gradient and observed information
 * Source: Cox (1972), J. R. Statist. Soc. B 34, 187-220; Efron (1977), J. Amer. Statist. Assoc. 72, 557-565; Therneau and
 * Grambsch (2000), Modeling Survival Data, section 3.3 (from memory).
 * Variant: a life with a count is so many tied lives. Sums are kept in two parts (Dekker 1971), so that lives which leave
 * take away all that they brought. Edges: no failures give 0. Errors: none; risks beyond all numbers give a value that is none.
 * @example evaluatePartialLikelihood(arrangeRiskSets([], new Float64Array()), []).value // 0
 */
export function evaluatePartialLikelihood(sets: RiskSets, beta: readonly number[]): Height {
  const { count, isEvent, values, byLast, byBefore, placed, covariates: p } = sets;
  const scores = scoreLives(sets, beta);
  const size = 1 + p + (p * (p + 1)) / 2;
  const sums = new Float64Array(size);
  const rests = new Float64Array(size);
  const all = new Float64Array(size);
  const failing = new Float64Array(size);
  const lost = new Float64Array(size);
  const gradient = new Float64Array(p);
  const information = new Float64Array(size);
  let value = 0;
  for (let j = placed.x.length - 1; j >= 0; j--) {
    failing.fill(0);
    let ties = 0;
    for (let at = byBefore.start[j] ?? 0; at < (byBefore.start[j + 1] ?? 0); at++) {
      const i = byBefore.life[at] ?? 0;
      addMoments(sums, rests, values, i * p, p, -(count[i] ?? 0) * Math.exp(scores[i] ?? 0));
    }
    for (let at = byLast.start[j] ?? 0; at < (byLast.start[j + 1] ?? 0); at++) {
      const i = byLast.life[at] ?? 0;
      const own = count[i] ?? 0;
      const risk = own * Math.exp(scores[i] ?? 0);
      addMoments(sums, rests, values, i * p, p, risk);
      if (isEvent[i] !== 1) continue;
      addMoments(failing, lost, values, i * p, p, risk);
      ties += own;
      value += own * (scores[i] ?? 0);
      for (let k = 0; k < p; k++) gradient[k] = (gradient[k] ?? 0) + own * (values[i * p + k] ?? 0);
    }
    for (let q = 0; q < size; q++) all[q] = (sums[q] ?? 0) + (rests[q] ?? 0);
    value -= takeFailures(all, failing, ties, p, gradient, information);
  }
  const matrix = Matrix.zeros(p, p);
  let q = 1 + p;
  for (let k = 0; k < p; k++)
    for (let m = 0; m <= k; m++) {
      matrix.set(k, m, information[q] ?? 0);
      matrix.set(m, k, information[q++] ?? 0);
    }
  return { value, gradient: [...gradient], information: matrix };
}

/**
 * Log hazards of lives against one whose covariates are all 0.
 *
 * score = sum of beta x.
 *
 * @param sets of {@link arrangeRiskSets}
 * @param beta a coefficient a covariate
 * @returns a score a life
 * Source: Cox (1972). Edges: no covariates give 0. Errors: none.
 * @example scoreLives(arrangeRiskSets([{ entry: 0, exit: 5, event: true, count: 1 }], new Float64Array([1])), [2]) // [2]
 */
export function scoreLives(
  { count, values, covariates: p }: RiskSets,
  beta: readonly number[],
): Float64Array {
  const scores = new Float64Array(count.length);
  for (let i = 0; i < count.length; i++) {
    let score = 0;
    for (let k = 0; k < p; k++) score += (beta[k] ?? 0) * (values[i * p + k] ?? 0);
    scores[i] = score;
  }
  return scores;
}

/** Adds a risk times 1, the covariates, and their products to the sums, with what rounding loses kept aside. */
function addMoments(
  sums: Float64Array,
  rests: Float64Array,
  values: Float64Array,
  at: number,
  p: number,
  risk: number,
): void {
  addTo(sums, rests, 0, risk);
  let q = 1 + p;
  for (let k = 0; k < p; k++) {
    const first = risk * (values[at + k] ?? 0);
    addTo(sums, rests, 1 + k, first);
    for (let m = 0; m <= k; m++) addTo(sums, rests, q++, first * (values[at + m] ?? 0));
  }
}

function addTo(sums: Float64Array, rests: Float64Array, q: number, amount: number): void {
  const before = sums[q] ?? 0;
  const after = before + amount;
  const taken = after - before;
  sums[q] = after;
  rests[q] = (rests[q] ?? 0) + (before - (after - taken)) + (amount - taken);
}

/** Takes what the failures of one mileage take from gradient and information; answers their share of the value. */
function takeFailures(
  s: Float64Array,
  t: Float64Array,
  ties: number,
  p: number,
  gradient: Float64Array,
  information: Float64Array,
): number {
  const terms = sumEfronTerms(s[0] ?? 0, Math.min(s[0] ?? 0, t[0] ?? 0), ties);
  const { over, phiOver, overSquare, phiOverSquare, phi2OverSquare } = terms;
  let q = 1 + p;
  for (let k = 0; k < p; k++) {
    const sk = s[1 + k] ?? 0;
    const tk = t[1 + k] ?? 0;
    gradient[k] = (gradient[k] ?? 0) - (sk * over - tk * phiOver);
    for (let m = 0; m <= k; m++) {
      const sm = s[1 + m] ?? 0;
      const tm = t[1 + m] ?? 0;
      const squares = sk * sm * overSquare - (sk * tm + tk * sm) * phiOverSquare + tk * tm * phi2OverSquare;
      information[q] = (information[q] ?? 0) + (s[q] ?? 0) * over - (t[q] ?? 0) * phiOver - squares;
      q++;
    }
  }
  return terms.log;
}
