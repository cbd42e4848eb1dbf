import type { PlatformContext } from '#server/engine/platform/platform-context.ts';
import { fitWear } from '#server/engine/wear/fit-wear.ts';
import { measureRaggedness } from '#server/engine/wear/measure-raggedness.ts';
import { measureYouth } from '#server/engine/wear/measure-youth.ts';
import type { Outlook } from '#server/engine/wear/outlook.ts';
import { settleCases } from '#server/engine/wear/settle-cases.ts';
import { steadyRaggedness } from '#server/engine/wear/steady-raggedness.ts';
import type { WearCase } from '#server/engine/wear/wear-model.ts';
import type { SeriesPoint } from './build-series.ts';
import { preparePoints } from './prepare-points.ts';
import { type CaseSummary, summariseCases } from './summarise-cases.ts';

/** Wear of one clutch: how it came to where it is, and how it may go on. */
export interface ClutchFit {
  cases: WearCase[];
  /** as of {@link ClutchFit.outlookKm} */
  outlooks: Outlook[];
  outlookKm: number;
  summary: CaseSummary;
  /** how little of its rise it has driven, see {@link measureYouth} */
  youth: number;
  /** share of independent information in the points */
  independence: number;
}

/** The level at the reference point may be wrong by this share of the rise; without the load by more. Own choice, from simulated fleets. */
const LEVEL_SHARE = 0.1;
const LEVEL_SHARE_WITHOUT_LOAD = 0.2;
/** What the vehicle has driven since the middle of its last stretch; a lone odometer value far ahead counts no more. */
const MOST_SINCE_KM = 1_500;

/**
 * Wear of one clutch from its points: posterior over cases ({@link fitWear}), settled at the last of them for looking
 * ahead ({@link settleCases}) and moved on to the odometer now.
 *
 * @param points   at the reference point, of one clutch, in order of km, at least one
 * @param limitRpm limit, rpm
 * @param wear     what is believed of clutches of its platform
 * @param earliest first km at which its wear can have begun, km
 * @param nowKm    odometer now, km; null where it is not known
 * @returns cases, outlooks, and what they come to
 * Source: those of the parts. Edges: outlooks begin 1,500 km after the last point at the most. Errors: those of fitWear.
 * @example fitClutch(points, 150, defaultWearPrior, 0, null).summary.drifting
 */
export function fitClutch(
  points: readonly SeriesPoint[],
  limitRpm: number,
  wear: PlatformContext['wear'],
  earliestKm: number,
  nowKm: number | null,
): ClutchFit {
  const { points: prepared, independence } = preparePoints(points);
  const cases = fitWear(prepared, limitRpm, wear, independence, earliestKm);
  const settled = settleCases(cases, prepared, {
    limitRpm,
    logSpanMean: wear.logSpanMean,
    waySd: wear.waySd,
    raggedRpm: steadyRaggedness(measureRaggedness(cases, prepared, limitRpm), wear.raggedRpm),
    levelShare: points.some((point) => point.loadPct !== null) ? LEVEL_SHARE : LEVEL_SHARE_WITHOUT_LOAD,
  });
  const lastKm = points.at(-1)?.km ?? 0;
  const sinceKm = Math.min(MOST_SINCE_KM, Math.max(0, (nowKm ?? lastKm) - lastKm));
  // They are nobody else's yet, and nothing below asks how far they have gone.
  for (const one of settled) one.goneKm += sinceKm;
  return {
    cases,
    outlooks: settled,
    outlookKm: lastKm + sinceKm,
    summary: summariseCases(cases, lastKm, settled),
    youth: measureYouth(cases, lastKm),
    independence,
  };
}
