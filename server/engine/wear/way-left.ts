import type { Outlook } from './outlook.ts';

/** Five equally likely values of a standard normal deviate: quantiles at 10, 30, 50, 70 and 90 %. */
export const DEVIATES = [-1.2816, -0.5244, 0, 0.5244, 1.2816] as const;

/**
 * Kilometres to the limit by one outlook, were its path to go on smoothly.
 *
 * span - gone; 0 where the level is at the limit or past it; no end where nothing grows.
 *
 * @param one      the outlook
 * @param limitRpm limit, rpm
 * @returns km, from 0 to infinite
 * Source: formula of {@link Outlook}. Edges: as said. Errors: none.
 * @example wayLeft(makeOutlook({ goneKm: 4_000, spanKm: 10_000 }), 150) // 6,000
 */
export function wayLeft(one: Outlook, limitRpm: number): number {
  return one.levelRpm >= limitRpm ? 0 : Math.max(0, one.spanKm - one.goneKm);
}
