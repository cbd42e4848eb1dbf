import { slipAt } from '#server/engine/wear/slip-at.ts';
import type { WearCase } from '#server/engine/wear/wear-model.ts';

/**
 * Mean path: slip at an odometer over all cases of wear, by their weights.
 *
 * @param cases    of one clutch, weights summing to 1
 * @param km       odometer, km
 * @param limitRpm limit, rpm
 * @returns slip, rpm
 * Source: posterior mean of the path of fitWear. Edges: no cases give 0. Errors: none.
 * @example meanPath([flatCase], 120_000, 150) // its baseline
 */
export function meanPath(cases: readonly WearCase[], km: number, limitRpm: number): number {
  let sum = 0;
  for (const one of cases) sum += one.weight * slipAt(one, km, limitRpm);
  return sum;
}
