import { weightedQuantiles } from '#server/engine/smooth/weighted-quantiles.ts';
import { DEVIATES, wayLeft } from './way-left.ts';
import type { WearCase } from './wear-model.ts';

/** Where the limit is crossed, if it is. */
export interface Passage {
  /** km to the limit: quantiles over the cases that reach it; 0 where it is passed */
  p10: number;
  p50: number;
  p90: number;
}

/**
 * Distance to the limit: first passage of the limit by the cases of wear.
 *
 * For a drifting case the path is rising, so first passage is at onset + span; the way left from the last reading
 * is stretched by a lognormal factor exp(waySd * z). Quantiles are those of the weighted cases.
 *
 * @param cases    of one clutch, weights summing to 1
 * @param nowKm    odometer of the last reading, km
 * @param limitRpm limit, rpm
 * @param waySd    of {@link WearPrior}
 * @returns passage, or null where no case reaches the limit
 * Source: first passage of a degradation path, Lu and Meeker 1993; Meeker and Escobar 1998, chapter 13 (from memory).
 * Edges: a case past the limit counts as 0 km, a jump included. Errors: none.
 * @example predictPassage(cases, 120_000, 150, 0.6)?.p50
 */
export function predictPassage(
  cases: readonly WearCase[],
  nowKm: number,
  limitRpm: number,
  waySd: number,
): Passage | null {
  const values: number[] = [];
  const weights: number[] = [];
  for (const one of cases) {
    const left = wayLeft(one, nowKm, limitRpm);
    if (left === Number.POSITIVE_INFINITY) continue;
    for (const deviate of DEVIATES) {
      values.push(left * Math.exp(waySd * deviate));
      weights.push(one.weight);
    }
  }
  if (!weights.some((weight) => weight > 0)) return null;
  const [p10 = 0, p50 = 0, p90 = 0] = weightedQuantiles(values, weights, [0.1, 0.5, 0.9]);
  return { p10, p50, p90 };
}
