import { shareRisen } from './share-risen.ts';
import type { WearCase } from './wear-model.ts';

/**
 * Slip by one case of wear at an odometer.
 *
 * @param one      the case
 * @param km       odometer, km
 * @param limitRpm limit, rpm
 * @returns slip, rpm
 * Source: formula of {@link WearCase}. Edges: at the onset and before it, the healthy slip. Errors: none.
 * @example slipAt(linearCase, linearCase.onsetKm, 150) // its baseline
 */
export function slipAt(one: WearCase, km: number, limitRpm: number): number {
  if (one.kind === 'flat' || km <= one.onsetKm) return one.baselineRpm;
  if (one.kind === 'step') return one.levelRpm;
  return (
    one.baselineRpm + (limitRpm - one.baselineRpm) * shareRisen(one.growth, km - one.onsetKm, one.spanKm)
  );
}
