import { normalCdf } from '#server/engine/distributions/normal-cdf.ts';
import type { Outlook } from './outlook.ts';
import { wayLeft } from './way-left.ts';

/** Deviates beyond which the normal distribution is taken as ended: 1e-19 is left there. */
const FAR = 9;

/**
 * Chance that the limit is crossed within a number of kilometres, or has been.
 *
 * sum over outlooks of weight * Phi(ln(ahead / way left) / waySd); 1 for one that is past the limit, 0 where nothing
 * grows. Phi is taken as 0 and 1 beyond 9 deviates, where it is so to 1e-19.
 *
 * @param outlooks of one clutch, weights summing to 1
 * @param limitRpm limit, rpm
 * @returns by kilometres ahead, positive: chance from 0 to 1. What does not go by them is reckoned once
 * Source: as predictPassage. Edges: as said. Errors: none.
 * @example chanceWithin([makeOutlook()], 150)(5_000)
 */
export function chanceWithin(outlooks: readonly Outlook[], limitRpm: number): (aheadKm: number) => number {
  let passed = 0;
  const ways: { weight: number; logLeft: number; sd: number }[] = [];
  for (const one of outlooks) {
    const left = wayLeft(one, limitRpm);
    if (left <= 0) passed += one.weight;
    else if (left < Number.POSITIVE_INFINITY)
      ways.push({ weight: one.weight, logLeft: Math.log(left), sd: one.waySd });
  }
  return (aheadKm) => {
    const logAhead = Math.log(aheadKm);
    let chance = passed;
    for (const { weight, logLeft, sd } of ways) {
      const deviate = (logAhead - logLeft) / sd;
      if (deviate > FAR) chance += weight;
      else if (!(deviate < -FAR)) chance += weight * normalCdf(deviate);
    }
    return Math.min(1, chance);
  };
}
