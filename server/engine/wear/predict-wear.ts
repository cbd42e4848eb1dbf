import normalCdf from '@stdlib/stats-base-dists-normal-cdf';
import { weightedQuantiles } from '#server/engine/smooth/weighted-quantiles.ts';
import type { WearCase } from './wear-model.ts';

/**
 * Standard deviation of the natural logarithm by which the way still to go differs from that of a smooth path:
 * duty, drivers and break-up of the lining do not go on as before. Own choice, to be calibrated on simulated
 * fleets.
 */
export const WAY_SD = 0.45;
/** Five equally likely values of a standard normal deviate: quantiles at 10, 30, 50, 70 and 90 %. */
const DEVIATES = [-1.2816, -0.5244, 0, 0.5244, 1.2816] as const;

/** Chance that the limit is crossed, and where. */
export interface Passage {
  /** chance that the slip grows at all */
  drifting: number;
  /** km to the limit if it does: quantiles; 0 where it is passed */
  p10: number;
  p50: number;
  p90: number;
}

/**
 * Distance to the limit: first passage of the limit by the cases of wear.
 *
 * For a drifting case the path is rising, so first passage is at onset + span; the way left from the last reading
 * is stretched by a lognormal factor exp(WAY_SD * z). Quantiles are those of the weighted cases.
 *
 * @param cases of one clutch, weights summing to 1
 * @param nowKm odometer of the last reading, km
 * @returns passage, or null where no drifting case is left
 * Source: first passage of a degradation path, Lu and Meeker 1993; Meeker and Escobar 1998, chapter 13.
 * Errors: none.
 * @example predictPassage(cases, 120_000)?.p50
 */
export function predictPassage(cases: readonly WearCase[], nowKm: number): Passage | null {
  const drifting = cases.filter((one) => one.kind === 'drift');
  const share = drifting.reduce((sum, one) => sum + one.weight, 0);
  if (share <= 0) return null;
  const values: number[] = [];
  const weights: number[] = [];
  for (const one of drifting)
    for (const deviate of DEVIATES) {
      values.push(wayLeft(one, nowKm) * Math.exp(WAY_SD * deviate));
      weights.push(one.weight);
    }
  const [p10 = 0, p50 = 0, p90 = 0] = weightedQuantiles(values, weights, [0.1, 0.5, 0.9]);
  return { drifting: share, p10, p50, p90 };
}

/**
 * Chance that the limit is crossed within a number of kilometres.
 *
 * sum over drifting cases of weight * Phi(ln(ahead / way left) / WAY_SD); 1 for a case that is past the limit.
 *
 * @param cases   of one clutch, weights summing to 1
 * @param nowKm   odometer of the last reading, km
 * @param aheadKm kilometres ahead, positive
 * @returns chance from 0 to 1
 * Source: as {@link predictPassage}. Errors: none.
 * @example chanceWithin(cases, 120_000, 5_000)
 */
export function chanceWithin(cases: readonly WearCase[], nowKm: number, aheadKm: number): number {
  let chance = 0;
  for (const one of cases) {
    if (one.kind !== 'drift') continue;
    const left = wayLeft(one, nowKm);
    chance += one.weight * (left <= 0 ? 1 : normalCdf(Math.log(aheadKm / left) / WAY_SD, 0, 1));
  }
  return Math.min(1, chance);
}

/**
 * Fan of the slip to come: quantiles of slip at an odometer ahead.
 *
 * @param cases         of one clutch, weights summing to 1
 * @param nowKm         odometer of the last reading, km
 * @param atKm          where, km, not before now
 * @param limitRpm      limit, rpm
 * @param probabilities of the quantiles
 * @returns slip, rpm, one for each probability
 * Source: as {@link predictPassage}; the way ahead is stretched as there. Errors: none.
 * @example predictSlip(cases, 120_000, 125_000, 150, [0.1, 0.5, 0.9])
 */
export function predictSlip(
  cases: readonly WearCase[],
  nowKm: number,
  atKm: number,
  limitRpm: number,
  probabilities: readonly number[],
): number[] {
  const values: number[] = [];
  const weights: number[] = [];
  for (const one of cases)
    for (const deviate of DEVIATES) {
      const km = nowKm + (atKm - nowKm) * Math.exp(-WAY_SD * deviate);
      values.push(slipAt(one, km, limitRpm) + one.levelSd * deviate);
      weights.push(one.weight);
    }
  return weightedQuantiles(values, weights, probabilities);
}

/**
 * Slip by one case of wear at an odometer.
 *
 * @param one      the case
 * @param km       odometer, km
 * @param limitRpm limit, rpm
 * @returns slip, rpm
 * Source: formula of {@link WearCase}. Errors: none.
 * @example slipAt(linearCase, linearCase.onsetKm, 150) // its baseline
 */
export function slipAt(one: WearCase, km: number, limitRpm: number): number {
  if (one.kind === 'flat' || km <= one.onsetKm) return one.baselineRpm;
  if (one.kind === 'step') return one.levelRpm;
  return one.baselineRpm + (limitRpm - one.baselineRpm) * ((km - one.onsetKm) / one.spanKm) ** one.power;
}

function wayLeft(one: WearCase, nowKm: number): number {
  return Math.max(0, one.onsetKm + one.spanKm - nowKm);
}
