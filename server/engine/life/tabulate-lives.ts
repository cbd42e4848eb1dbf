import type { ObservedLife } from './life-model.ts';
import { placeLives } from './place-lives.ts';

export interface LifeTable {
  /** different mileages at which lives failed, rising */
  x: Float64Array;
  /** lives at risk at x: entry < x <= exit */
  atRisk: Float64Array;
  events: Float64Array;
  /** lives that ran on, seen last from x until before the next x */
  censored: Float64Array;
  /** of each life, how many x are at or below its exit */
  to: Int32Array;
}

/**
 * Life table: at risk, failed and seen last at each mileage at which lives failed.
 *
 * atRisk(x) = sum of counts with entry < x <= exit; at one mileage failures come before lives seen last.
 *
 * @param lives in any order
 * @returns one row a mileage, as columns, and where in them each life ends
 * Source: Klein and Moeschberger (2003), Survival Analysis, sections 4.2 and 4.6 (late entry; from memory).
 * Edges: without failures no rows; lives last seen before the first failure are in no row. Errors: none.
 * @example tabulateLives([{ entry: 0, exit: 5, event: true, count: 3 }]) // x [5], atRisk [3], events [3], censored [0]
 */
export function tabulateLives(lives: readonly ObservedLife[]): LifeTable {
  const { x, from, to } = placeLives(lives);
  const change = new Float64Array(x.length + 1);
  const events = new Float64Array(x.length);
  const censored = new Float64Array(x.length);
  let i = 0;
  for (const { event, count } of lives) {
    const first = from[i] ?? 0;
    const end = to[i++] ?? 0;
    change[first] = (change[first] ?? 0) + count;
    change[end] = (change[end] ?? 0) - count;
    if (end === 0) continue;
    const column = event ? events : censored;
    column[end - 1] = (column[end - 1] ?? 0) + count;
  }
  const atRisk = new Float64Array(x.length);
  let now = 0;
  for (let j = 0; j < x.length; j++) {
    now += change[j] ?? 0;
    atRisk[j] = now;
  }
  return { x, atRisk, events, censored, to };
}
