import type { RiskSets } from './partial-likelihood.ts';
import type { PlacedLives } from './place-lives.ts';

/**
 * Whether a score puts every failure above, or level with, all that were at risk with it: then Cox's likelihood rises for ever in
 * its direction.
 *
 * Separated: at each mileage with failures, min of their scores >= max over all at risk less the tolerance, and at some mileage
 * one at risk lies below by more than it.
 *
 * @param sets      of arrangeRiskSets
 * @param score     of each life
 * @param tolerance on the scale of the score, 0 or more
 * @returns true where it does
 * Source: Jacobsen (1989), Existence and unicity of MLEs in discrete exponential family distributions (Cox's case is of that form);
 * Bryson and Johnson (1981), Technometrics 23, 381-383 (both from memory).
 * Variant: the largest score at risk by painting: lives in falling order each mark the mileages of theirs that are not marked yet.
 * Edges: without failures false. Errors: none.
 * @example isSeparated(arrangeRiskSets([{ entry: 0, exit: 1, event: true, count: 1 }, { entry: 0, exit: 2, event: false, count: 1 }], new Float64Array(2)), new Float64Array([1, 0]), 0) // true
 */
export function isSeparated(
  { placed, isEvent }: Pick<RiskSets, 'placed' | 'isEvent'>,
  score: Float64Array,
  tolerance: number,
): boolean {
  const size = placed.x.length;
  const order = Int32Array.from(score, (_, i) => i).sort((a, b) => (score[b] ?? 0) - (score[a] ?? 0));
  const largest = paint(placed, order, score);
  const smallest = paint(placed, order.reverse(), score);
  const failing = new Float64Array(size).fill(Number.POSITIVE_INFINITY);
  for (const [i, one] of isEvent.entries()) {
    if (one !== 1) continue;
    const j = (placed.to[i] ?? 1) - 1;
    failing[j] = Math.min(failing[j] ?? 0, score[i] ?? 0);
  }
  let isStrict = false;
  for (let j = 0; j < size; j++) {
    if ((failing[j] ?? 0) < (largest[j] ?? 0) - tolerance) return false;
    if ((smallest[j] ?? 0) < (failing[j] ?? 0) - tolerance) isStrict = true;
  }
  return isStrict;
}

function paint({ x, from, to }: PlacedLives, order: Int32Array, score: Float64Array): Float64Array {
  const marked = new Float64Array(x.length);
  /** the next mileage that is not marked, itself included */
  const next = Int32Array.from({ length: x.length + 1 }, (_, j) => j);
  const find = (j: number): number => {
    let end = j;
    while ((next[end] ?? end) !== end) end = next[end] ?? end;
    for (let at = j; at !== end; ) {
      const after = next[at] ?? end;
      next[at] = end;
      at = after;
    }
    return end;
  };
  for (const i of order)
    for (let j = find(from[i] ?? 0); j < (to[i] ?? 0); j = find(j)) {
      marked[j] = score[i] ?? 0;
      next[j] = j + 1;
    }
  return marked;
}
