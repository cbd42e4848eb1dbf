import type { ObservedLife } from './life-model.ts';

export interface PlacedLives {
  /** different mileages at which lives failed, rising */
  x: Float64Array;
  /** each life is at risk at x[from], …, x[to - 1] */
  from: Int32Array;
  to: Int32Array;
}

/**
 * Where each life was at risk, as ranks among the mileages at which lives failed.
 *
 * At risk at x: entry < x <= exit. from = number of x at or below entry, to = number of x at or below exit.
 *
 * @param lives in any order
 * @returns the mileages of the failures and the ranks of each life, in the order of lives
 * Source: Andersen, Borgan, Gill and Keiding (1993), Statistical Models Based on Counting Processes, section III.2 (from
 * memory) for late entry. Variant: half-open on the left, so that a life that enters at x is not at risk at x.
 * Edges: without failures no mileages, all ranks 0. Errors: none.
 * @example placeLives([{ entry: 0, exit: 5, event: true, count: 1 }]) // x [5], from [0], to [1]
 */
export function placeLives(lives: readonly ObservedLife[]): PlacedLives {
  const failures = new Float64Array(lives.length);
  let size = 0;
  for (const { exit, event } of lives) if (event) failures[size++] = exit;
  const sorted = failures.subarray(0, size).sort();
  let distinct = 0;
  for (const one of sorted) if (distinct === 0 || one !== sorted[distinct - 1]) sorted[distinct++] = one;
  const x = sorted.subarray(0, distinct);
  const from = new Int32Array(lives.length);
  const to = new Int32Array(lives.length);
  let i = 0;
  for (const { entry, exit } of lives) {
    if (entry > 0) from[i] = countUpTo(x, entry);
    to[i++] = countUpTo(x, exit);
  }
  return { x, from, to };
}

function countUpTo(sorted: Float64Array, limit: number): number {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((sorted[middle] ?? 0) <= limit) low = middle + 1;
    else high = middle;
  }
  return low;
}
