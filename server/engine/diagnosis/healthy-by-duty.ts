import { normalQuantile } from '#server/engine/distributions/normal-quantile.ts';
import type { BandContext } from '#server/engine/platform/platform-context.ts';
import { unknownBand } from '#server/engine/platform/unknown-band.ts';
import { REFERENCE_BAND } from '#server/engine/stretches/band-of.ts';

/** Slip that healthy vehicles of a platform have at one commanded duty. */
export interface HealthySlip {
  dutyPct: number;
  lowRpm: number;
  usualRpm: number;
  highRpm: number;
}

const SHARE_HELD = 0.95;

/**
 * Healthy range of slip by commanded duty, from what was learned of a platform.
 *
 * For each command band at its middle duty: usual = baseline, low and high = baseline -+ z * sd between vehicles, z the
 * normal quantile of 0.975, low not below 0. So 95 % of healthy vehicles have their usual slip within.
 *
 * @param bands   what was learned of each band: baseline and its spread between vehicles, rpm
 * @param edgesPct rising band edges, %
 * @returns the range at each band of which something was learned, by rising duty
 * Source: tolerance of a normal population with known mean and sd, any textbook. Assumes that healthy slip is normal
 * between vehicles; that the drive is near the load and fluid temperature of the platform's reference point, to which
 * baselines are carried; and that duties within a band spread about its middle. A single short stretch scatters about
 * its vehicle's usual slip beyond this. Edges: a band that still is as assumed for an unknown one is left out, as is
 * the series at the reference point. Errors: none.
 * @example healthyByDuty([], [40, 55, 70, 85, 100]) // []
 */
export function healthyByDuty(
  bands: readonly Pick<BandContext, 'band' | 'baselineRpm' | 'baselineSd'>[],
  edgesPct: readonly number[],
): HealthySlip[] {
  const reach = normalQuantile((1 + SHARE_HELD) / 2);
  return bands
    .filter((one) => one.band !== REFERENCE_BAND && isLearned(one))
    .flatMap(({ band, baselineRpm, baselineSd }) => {
      const [from, to] = [edgesPct[band], edgesPct[band + 1]];
      if (from === undefined || to === undefined) return [];
      return [
        {
          dutyPct: (from + to) / 2,
          lowRpm: Math.max(0, baselineRpm - reach * baselineSd),
          usualRpm: baselineRpm,
          highRpm: baselineRpm + reach * baselineSd,
        },
      ];
    })
    .sort((a, b) => a.dutyPct - b.dutyPct);
}

function isLearned({
  band,
  baselineRpm,
  baselineSd,
}: Pick<BandContext, 'band' | 'baselineRpm' | 'baselineSd'>) {
  const assumed = unknownBand(band);
  return baselineRpm !== assumed.baselineRpm || baselineSd !== assumed.baselineSd;
}
