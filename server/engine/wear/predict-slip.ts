import type { Outlook } from './outlook.ts';
import { predictSlips } from './predict-slips.ts';

/**
 * Fan of the slip to come: quantiles of slip some kilometres ahead.
 *
 * slip(gone + ahead * exp(-waySd * z1)) + levelSd * z2, z1 and z2 over five equally likely normal deviates, paired so
 * that they do not go together.
 *
 * @param outlooks      of one clutch, weights summing to 1
 * @param aheadKm       how far ahead, km, from 0
 * @param limitRpm      limit, rpm
 * @param probabilities of the quantiles, rising
 * @returns slip, rpm, one for each probability
 * Source: as predictPassage; the way ahead is stretched as there. Edges: at 0 only the level's error is left.
 * Errors: none.
 * @example predictSlip([makeOutlook()], 5_000, 150, [0.1, 0.5, 0.9])
 */
export function predictSlip(
  outlooks: readonly Outlook[],
  aheadKm: number,
  limitRpm: number,
  probabilities: readonly number[],
): number[] {
  return predictSlips(outlooks, [aheadKm], limitRpm, probabilities)[0] ?? [];
}
