import normalCdf from '@stdlib/stats-base-dists-normal-cdf';
import { wayLeft } from './way-left.ts';
import type { WearCase } from './wear-model.ts';

/** Kilometres over which a jump as high as the limit goes on to it as often as not to 37 %. Own assumption. */
const JUMP_KM = 15_000;

/**
 * Chance that the limit is crossed within a number of kilometres, or has been.
 *
 * sum over cases of weight * Phi(ln(ahead / way left) / waySd); 1 for a case that is past the limit, a jump
 * included. A jump below the limit shows no rate: it goes on to the limit with the constant hazard
 * (level - healthy) / (limit - healthy) / 15,000 km, so that a vehicle that is first seen at a high level stands
 * near the top. 0 where nothing has risen.
 *
 * @param cases    of one clutch, weights summing to 1
 * @param nowKm    odometer of the last reading, km
 * @param aheadKm  kilometres ahead, positive
 * @param limitRpm limit, rpm
 * @param waySd    of {@link WearPrior}
 * @returns chance from 0 to 1
 * Source: as predictPassage. Edges: as said. Errors: none.
 * @example chanceWithin(cases, 120_000, 5_000, 150, 0.6)
 */
export function chanceWithin(
  cases: readonly WearCase[],
  nowKm: number,
  aheadKm: number,
  limitRpm: number,
  waySd: number,
): number {
  let chance = 0;
  for (const one of cases) {
    if (one.kind === 'flat' && one.levelRpm < limitRpm) continue;
    const left = wayLeft(one, nowKm, limitRpm);
    if (left === Number.POSITIVE_INFINITY) {
      const risen = Math.max(0, (one.levelRpm - one.baselineRpm) / (limitRpm - one.baselineRpm));
      chance += one.weight * (1 - Math.exp((-aheadKm * risen) / JUMP_KM));
      continue;
    }
    chance += one.weight * (left <= 0 ? 1 : normalCdf(Math.log(aheadKm / left) / waySd, 0, 1));
  }
  return Math.min(1, chance);
}
