import type { Outlook } from '#server/engine/wear/outlook.ts';
import { predictSlips } from '#server/engine/wear/predict-slips.ts';
import { thinOutlooks } from '#server/engine/wear/thin-outlooks.ts';
import type { ForecastPoint } from './assessment-model.ts';

const FAN = [0.025, 0.1, 0.25, 0.5, 0.75, 0.9, 0.975] as const;
const FAN_POINTS = 24;
/** As many outlooks draw the same fan. */
const FAN_OUTLOOKS = 100;
/** A fan ends a tenth beyond what it has to show, and shows no more than so many kilometres. */
const BEYOND = 1.1;
const MOST_KM = 40_000;

/**
 * Fan of the slip to come: its quantiles at even steps from now to beyond the horizon and to where the limit is passed.
 *
 * @param outlooks  of one clutch, weights summing to 1
 * @param nowKm     odometer of the outlooks, km
 * @param limitRpm  limit, rpm
 * @param horizonKm planning horizon, km
 * @param farKm     distance that the fan has to show, km: where the limit is passed at the latest
 * @returns 25 points, the first at now
 * Source: {@link predictSlips} of outlooks thinned by {@link thinOutlooks}. Edges: 40,000 km at the most. Errors: none.
 * @example drawFan([makeOutlook()], 105_000, 150, 5_000, 9_000)[24].km // 114_900
 */
export function drawFan(
  outlooks: readonly Outlook[],
  nowKm: number,
  limitRpm: number,
  horizonKm: number,
  farKm: number,
): ForecastPoint[] {
  const thin = thinOutlooks(outlooks, limitRpm, FAN_OUTLOOKS);
  const reachKm = Math.min(MOST_KM, Math.max(horizonKm, BEYOND * farKm));
  const aheadKm = Array.from({ length: FAN_POINTS + 1 }, (_, i) => (reachKm * i) / FAN_POINTS);
  const fan = predictSlips(thin, aheadKm, limitRpm, FAN);
  return aheadKm.map((ahead, i) => ({ km: nowKm + ahead, slipRpm: fan[i] ?? [] }));
}
