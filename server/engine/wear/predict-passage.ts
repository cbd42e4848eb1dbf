import { weightedQuantiles } from '#server/engine/smooth/weighted-quantiles.ts';
import type { Outlook } from './outlook.ts';
import { DEVIATES, wayLeft } from './way-left.ts';

/** Where the limit is crossed, if it is. */
export interface Passage {
  /** km to the limit: quantiles over the outlooks that reach it; 0 where it is passed */
  p10: number;
  p50: number;
  p90: number;
}

/**
 * Distance to the limit: first passage of the limit.
 *
 * Every path rises, so first passage is where its way left ends; that way is stretched by a lognormal factor
 * exp(waySd * z). Quantiles are those of the weighted outlooks.
 *
 * @param outlooks of one clutch, weights summing to 1
 * @param limitRpm limit, rpm
 * @returns passage, or null where no outlook reaches the limit
 * Source: first passage of a degradation path, Lu and Meeker 1993; Meeker and Escobar 1998, chapter 13 (from memory).
 * Edges: an outlook past the limit counts as 0 km. Errors: none.
 * @example predictPassage([makeOutlook()], 150)?.p50
 */
export function predictPassage(outlooks: readonly Outlook[], limitRpm: number): Passage | null {
  const values: number[] = [];
  const weights: number[] = [];
  for (const one of outlooks) {
    const left = wayLeft(one, limitRpm);
    if (left === Number.POSITIVE_INFINITY) continue;
    for (const deviate of DEVIATES) {
      values.push(left * Math.exp(one.waySd * deviate));
      weights.push(one.weight);
    }
  }
  if (!weights.some((weight) => weight > 0)) return null;
  const [p10 = 0, p50 = 0, p90 = 0] = weightedQuantiles(values, weights, [0.1, 0.5, 0.9]);
  return { p10, p50, p90 };
}
