import type { Outlook } from './outlook.ts';
import { shareRisen } from './share-risen.ts';

/**
 * Slip by one outlook some kilometres ahead, were its path to go on smoothly.
 *
 * baseline + (limit - baseline) * share risen after gone + ahead.
 *
 * @param one      the outlook
 * @param aheadKm  km ahead; negative looks back
 * @param limitRpm limit, rpm
 * @returns slip, rpm
 * Source: formula of {@link Outlook}. Edges: where nothing grows, and before the onset, the level now. Errors: none.
 * @example slipAhead(makeOutlook({ goneKm: 4_000, spanKm: 10_000 }), 6_000, 150) // 150
 */
export function slipAhead(one: Outlook, aheadKm: number, limitRpm: number): number {
  const km = one.goneKm + aheadKm;
  if (one.spanKm === Number.POSITIVE_INFINITY || km <= 0) return one.levelRpm;
  return one.baselineRpm + (limitRpm - one.baselineRpm) * shareRisen(one.growth, km, one.spanKm);
}
