import { chanceWithin } from '#server/engine/wear/chance-within.ts';
import { recalibrateChance } from '#server/engine/wear/recalibrate-chance.ts';
import type { VehicleAssessment } from './assessment-model.ts';
import type { ClutchFit } from './fit-clutch.ts';

/** `hold` asks for the chance within this many kilometres. */
const SOON_KM = 1_000;

/**
 * Chances of one clutch: that it is past its limit, and that it reaches it or fails without notice within some kilometres.
 *
 * chance(km) = 1 - (1 - worn(km)) * (1 - sudden(km)), worn the chance of crossing ({@link chanceWithin}) set right
 * ({@link recalibrateChance}).
 *
 * @param fit          of the clutch: its outlooks, weights summing to 1, and how young its rise is
 * @param limitRpm     limit, rpm
 * @param horizonKm    planning horizon, km
 * @param atKm         kilometres ahead at which a chance is wanted beside
 * @param suddenWithin chance of a failure without notice within some kilometres
 * @returns chances from 0 to 1
 * Source: those of the parts; failures with and without notice taken as independent. Edges: those of the parts; the chance
 * soon leaves failures without notice out. Errors: none.
 * @example weighChances({ outlooks: [makeFlatOutlook()], youth: 0 }, 150, 5_000, [], () => 0).chanceWithinHorizon // 0
 */
export function weighChances(
  { outlooks, youth }: Pick<ClutchFit, 'outlooks' | 'youth'>,
  limitRpm: number,
  horizonKm: number,
  atKm: readonly number[],
  suddenWithin: (km: number) => number,
): Pick<VehicleAssessment, 'chancePastLimit' | 'chanceSoon' | 'chanceWithinHorizon' | 'chances'> {
  const pastNow = outlooks.reduce((sum, one) => sum + (one.levelRpm >= limitRpm ? one.weight : 0), 0);
  const crosses = chanceWithin(outlooks, limitRpm);
  // The same distances are asked for more than once, and each is a look at every outlook.
  const known = new Map<number, number>();
  const wornWithin = (km: number) => {
    const before = known.get(km);
    if (before !== undefined) return before;
    const worn = recalibrateChance(crosses(km), pastNow, youth);
    known.set(km, worn);
    return worn;
  };
  const eitherWithin = (km: number) => 1 - (1 - wornWithin(km)) * (1 - suddenWithin(km));
  return {
    chancePastLimit: pastNow,
    chanceSoon: wornWithin(SOON_KM),
    chanceWithinHorizon: eitherWithin(horizonKm),
    chances: atKm.map((km) => [km, eitherWithin(km)]),
  };
}
