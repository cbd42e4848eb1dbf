import normalCdf from '@stdlib/stats-base-dists-normal-cdf';
import { WAY_SD, wayLeft } from './way-left.ts';
import type { WearCase } from './wear-model.ts';

/**
 * Chance that the limit is crossed within a number of kilometres, or has been.
 *
 * sum over cases of weight * Phi(ln(ahead / way left) / WAY_SD); 1 for a case that is past the limit, a jump
 * included; 0 for one that does not grow.
 *
 * @param cases    of one clutch, weights summing to 1
 * @param nowKm    odometer of the last reading, km
 * @param aheadKm  kilometres ahead, positive
 * @param limitRpm limit, rpm
 * @returns chance from 0 to 1
 * Source: as predictPassage. Edges: as said. Errors: none.
 * @example chanceWithin(cases, 120_000, 5_000, 150)
 */
export function chanceWithin(
  cases: readonly WearCase[],
  nowKm: number,
  aheadKm: number,
  limitRpm: number,
): number {
  let chance = 0;
  for (const one of cases) {
    const left = wayLeft(one, nowKm, limitRpm);
    if (left === Number.POSITIVE_INFINITY) continue;
    chance += one.weight * (left <= 0 ? 1 : normalCdf(Math.log(aheadKm / left) / WAY_SD, 0, 1));
  }
  return Math.min(1, chance);
}
