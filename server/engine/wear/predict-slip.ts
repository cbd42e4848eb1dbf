import { weightedQuantiles } from '#server/engine/smooth/weighted-quantiles.ts';
import { slipAt } from './slip-at.ts';
import { DEVIATES } from './way-left.ts';
import type { WearCase } from './wear-model.ts';

/** The same deviates in an order that has no correlation with theirs: error of the level beside that of the way. */
const LEVEL_DEVIATES = [0.5244, -1.2816, 0, 1.2816, -0.5244] as const;

/**
 * Fan of the slip to come: quantiles of slip at an odometer ahead.
 *
 * slip(now + (at - now) * exp(-waySd * z1)) + levelSd * z2, z1 and z2 over five equally likely normal deviates,
 * paired so that they do not go together.
 *
 * @param cases         of one clutch, weights summing to 1
 * @param nowKm         odometer of the last reading, km
 * @param atKm          where, km, not before now
 * @param limitRpm      limit, rpm
 * @param waySd         of {@link WearPrior}
 * @param probabilities of the quantiles, rising
 * @returns slip, rpm, one for each probability
 * Source: as predictPassage; the way ahead is stretched as there. Edges: at now only the level's error is left.
 * Errors: none.
 * @example predictSlip(cases, 120_000, 125_000, 150, 0.6, [0.1, 0.5, 0.9])
 */
export function predictSlip(
  cases: readonly WearCase[],
  nowKm: number,
  atKm: number,
  limitRpm: number,
  waySd: number,
  probabilities: readonly number[],
): number[] {
  const values: number[] = [];
  const weights: number[] = [];
  for (const one of cases)
    DEVIATES.forEach((deviate, i) => {
      const km = nowKm + (atKm - nowKm) * Math.exp(-waySd * deviate);
      values.push(slipAt(one, km, limitRpm) + one.levelSd * (LEVEL_DEVIATES[i] ?? 0));
      weights.push(one.weight);
    });
  return weightedQuantiles(values, weights, probabilities);
}
