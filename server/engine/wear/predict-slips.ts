import { weightedQuantiles } from '#server/engine/smooth/weighted-quantiles.ts';
import type { Outlook } from './outlook.ts';
import { slipAhead } from './slip-ahead.ts';
import { DEVIATES } from './way-left.ts';

/** The same deviates in an order that has no correlation with theirs: error of the level beside that of the way. */
const LEVEL_DEVIATES = [0.5244, -1.2816, 0, 1.2816, -0.5244] as const;

/**
 * Slip to come at several distances ahead: its quantiles, as of predictSlip, each outlook taken apart but once.
 *
 * slip(gone + ahead * exp(-waySd * z1)) + levelSd * z2, see {@link slipAhead} and predictSlip.
 *
 * @param outlooks      of one clutch, weights summing to 1
 * @param aheadKm       how far ahead, km, each from 0
 * @param limitRpm      limit, rpm
 * @param probabilities of the quantiles, rising
 * @returns for each distance slip, rpm, one for each probability
 * Source: that of predictSlip. Edges: no distances give none. Errors: none.
 * @example predictSlips([makeOutlook()], [0, 5_000], 150, [0.5]) // [[85], [150]]
 */
export function predictSlips(
  outlooks: readonly Outlook[],
  aheadKm: readonly number[],
  limitRpm: number,
  probabilities: readonly number[],
): number[][] {
  const count = DEVIATES.length;
  const stretches = new Float64Array(count * outlooks.length);
  const weights = new Float64Array(count * outlooks.length);
  outlooks.forEach(({ waySd, weight }, i) => {
    DEVIATES.forEach((deviate, j) => {
      stretches[count * i + j] = Math.exp(-waySd * deviate);
      weights[count * i + j] = weight;
    });
  });
  const values = new Float64Array(count * outlooks.length);
  return aheadKm.map((ahead) => {
    for (let i = 0; i < outlooks.length; i++) {
      const one = outlooks[i];
      if (one === undefined) continue;
      // Where it starts, no stretching shows.
      const here = ahead === 0 ? slipAhead(one, 0, limitRpm) : Number.NaN;
      for (let j = 0; j < count; j++) {
        const place = count * i + j;
        const slip = ahead === 0 ? here : slipAhead(one, ahead * (stretches[place] ?? 1), limitRpm);
        values[place] = slip + one.levelSd * (LEVEL_DEVIATES[j] ?? 0);
      }
    }
    return weightedQuantiles(values, weights, probabilities);
  });
}
