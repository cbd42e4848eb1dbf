import type { ObservedLife } from './life-model.ts';

/**
 * Check of life data, for the functions that take them.
 *
 * 0 <= entry < exit, both finite; count above 0 and finite.
 *
 * @param caller name of the function that was called
 * @param lives  in any order
 * @returns how many lives and failures there are, counted by count
 * Source: own rule. Edges: no lives give 0 and 0. Errors: throws `<caller> requires …` where a life breaks the rule.
 * @example requireLives('fitWeibull', [{ entry: 0, exit: 5, event: true, count: 2 }]) // { n: 2, events: 2 }
 */
export function requireLives(caller: string, lives: readonly ObservedLife[]): { n: number; events: number } {
  let n = 0;
  let events = 0;
  for (const { entry, exit, event, count } of lives) {
    if (!(entry >= 0 && entry < exit && exit < Number.POSITIVE_INFINITY))
      throw new Error(`${caller} requires lives with 0 <= entry < exit, both finite`);
    if (!(count > 0 && count < Number.POSITIVE_INFINITY))
      throw new Error(`${caller} requires counts above 0`);
    n += count;
    if (event) events += count;
  }
  return { n, events };
}
