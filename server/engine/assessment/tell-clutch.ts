import { findBandContext } from '#server/engine/platform/find-band-context.ts';
import type { PlatformContext, PlatformSettings } from '#server/engine/platform/platform-context.ts';
import { REFERENCE_BAND } from '#server/engine/stretches/band-of.ts';
import { measureClimb } from '#server/engine/wear/measure-climb.ts';
import { predictPassage } from '#server/engine/wear/predict-passage.ts';
import type { AssessmentInput } from './assessment-input.ts';
import type { VehicleAssessment } from './assessment-model.ts';
import type { Series } from './build-series.ts';
import { compareBands } from './compare-bands.ts';
import { drawFan } from './draw-fan.ts';
import { drawFit } from './draw-fit.ts';
import type { ClutchFit } from './fit-clutch.ts';
import { giveReasons } from './give-reasons.ts';
import type { RiseJudgement } from './judge-rise.ts';
import { tellPattern } from './tell-pattern.ts';
import type { Fall } from './trace-clutch.ts';

/** What only people read of an assessment. */
export type ToldOfClutch = Pick<
  VehicleAssessment,
  'passage' | 'forecast' | 'fitLine' | 'bandRises' | 'pattern' | 'reasons'
>;

export interface ClutchFindings {
  /** of the clutch alone, the one at the reference point first, in order of km */
  series: readonly Series[];
  fall: Fall | null;
  codes: AssessmentInput['codes'];
  fit: ClutchFit;
  rise: RiseJudgement;
}

/** Where nothing is told. */
export const untold: ToldOfClutch = {
  passage: null,
  forecast: [],
  fitLine: [],
  bandRises: [],
  pattern: 'none',
  reasons: [],
};

/**
 * What people are told of one clutch beside its figures: rises of the bands, pattern, distance to the limit, forecast, line of
 * the fit, and reasons.
 *
 * @param found     of the clutch
 * @param settings  of its platform
 * @param context   learned from its platform
 * @param horizonKm planning horizon, km
 * @returns what is told; units in the names
 * Source: those of the parts. Edges: where nothing has risen there are no distance and no forecast. Errors: none.
 * @example tellClutch(flatFindings, settings, unknownPlatform, 5_000).pattern // 'none'
 */
export function tellClutch(
  { series, fall, codes, fit, rise }: ClutchFindings,
  settings: PlatformSettings,
  context: PlatformContext,
  horizonKm: number,
): ToldOfClutch {
  const { limitRpm } = settings;
  const { cases, outlooks, summary } = fit;
  const { risen, arrivedSlipping } = rise;
  const [reference, ...commands] = series;
  const points = reference?.points ?? [];
  const onsetKm = summary.onset?.estimate ?? null;
  const bandRises = compareBands(commands, onsetKm, points[0]?.km ?? 0);
  const usual = findBandContext(context, REFERENCE_BAND).effects;
  const risenBy = Math.max(0, summary.level.mean - summary.baseline.estimate) / 100;
  const perDegree = ({ healthy, worn }: Series['effects']) => healthy[1] + worn[1] * risenBy;
  const hotRpmPerC = { own: perDegree(reference?.effects ?? usual), usual: perDegree(usual) };
  const pattern = tellPattern({
    summary,
    limitRpm,
    arrivedSlipping,
    fellBack: fall !== null,
    bandRises,
    hotRpmPerC,
    hasCode: codes.length > 0,
    risen,
  });
  const passage = risen ? predictPassage(outlooks, limitRpm) : null;
  return {
    passage,
    forecast: risen ? drawFan(outlooks, fit.outlookKm, limitRpm, horizonKm, passage?.p90 ?? horizonKm) : [],
    fitLine: drawFit(cases, points, limitRpm, onsetKm, summary.level.mean),
    bandRises,
    pattern,
    reasons: giveReasons({
      summary,
      settings,
      points,
      passage,
      pattern,
      bandRises,
      hotRpmPerC,
      usualRpm: context.wear.baselineRpm,
      codes,
      fall,
      events: context.events,
      arrivedSlipping,
      nowRpmPerKm: measureClimb(outlooks, limitRpm),
      risen,
    }),
  };
}
