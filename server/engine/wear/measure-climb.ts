import type { Outlook } from './outlook.ts';
import { slipAhead } from './slip-ahead.ts';

/** Kilometres over which the climb as of now is told. */
const CLIMB_KM = 1_000;

/**
 * Climb of slip as of now: over the next 1,000 km, were the paths to go on smoothly.
 *
 * sum over outlooks of weight * (slip ahead - slip now) / 1,000 km.
 *
 * @param outlooks of one clutch, weights summing to 1
 * @param limitRpm limit, rpm
 * @returns climb, rpm per km
 * Source: posterior mean of {@link slipAhead}. Edges: no outlooks give 0. Errors: none.
 * @example measureClimb([makeOutlook()], 150) // 0.013
 */
export function measureClimb(outlooks: readonly Outlook[], limitRpm: number): number {
  const slipIn = (km: number) =>
    outlooks.reduce((sum, one) => sum + one.weight * slipAhead(one, km, limitRpm), 0);
  return (slipIn(CLIMB_KM) - slipIn(0)) / CLIMB_KM;
}
