import normalCdf from '@stdlib/stats-base-dists-normal-cdf';
import type { Outlook } from './outlook.ts';
import { wayLeft } from './way-left.ts';

/**
 * Chance that the limit is crossed within a number of kilometres, or has been.
 *
 * sum over outlooks of weight * Phi(ln(ahead / way left) / waySd); 1 for one that is past the limit, 0 where nothing
 * grows.
 *
 * @param outlooks of one clutch, weights summing to 1
 * @param aheadKm  kilometres ahead, positive
 * @param limitRpm limit, rpm
 * @returns chance from 0 to 1
 * Source: as predictPassage. Edges: as said. Errors: none.
 * @example chanceWithin([makeOutlook()], 5_000, 150)
 */
export function chanceWithin(outlooks: readonly Outlook[], aheadKm: number, limitRpm: number): number {
  let chance = 0;
  for (const one of outlooks) {
    const left = wayLeft(one, limitRpm);
    if (left === Number.POSITIVE_INFINITY) continue;
    chance += one.weight * (left <= 0 ? 1 : normalCdf(Math.log(aheadKm / left) / one.waySd, 0, 1));
  }
  return Math.min(1, chance);
}
