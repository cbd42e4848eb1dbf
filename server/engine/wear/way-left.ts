import type { WearCase } from './wear-model.ts';

/** Five equally likely values of a standard normal deviate: quantiles at 10, 30, 50, 70 and 90 %. */
export const DEVIATES = [-1.2816, -0.5244, 0, 0.5244, 1.2816] as const;

/**
 * Kilometres to the limit by one case of wear, were its path to go on smoothly.
 *
 * 0 where the slip by this case is at the limit or past it, of whatever kind the case; else onset + span - now for a
 * drifting case, and no end for one that does not grow.
 *
 * @param one      the case
 * @param nowKm    odometer of the last reading, km
 * @param limitRpm limit, rpm
 * @returns km, from 0 to infinite
 * Source: formula of {@link WearCase}. Edges: as said. Errors: none.
 * @example wayLeft(linearCase, linearCase.onsetKm, 150) // its span
 */
export function wayLeft(one: WearCase, nowKm: number, limitRpm: number): number {
  if (one.levelRpm >= limitRpm) return 0;
  return one.kind === 'drift' ? Math.max(0, one.onsetKm + one.spanKm - nowKm) : Number.POSITIVE_INFINITY;
}
