import type { PlatformContext, PlatformSettings } from '#server/engine/platform/platform-context.ts';
import { chanceOfSuddenFailure } from '#server/engine/wear/chance-of-sudden-failure.ts';
import type { AssessmentInput } from './assessment-input.ts';
import type { VehicleAssessment } from './assessment-model.ts';
import { fitClutch } from './fit-clutch.ts';
import { judgeRise } from './judge-rise.ts';
import { listMissing } from './list-missing.ts';
import { measurePace } from './measure-pace.ts';
import { tellClutch, untold } from './tell-clutch.ts';
import { traceClutch } from './trace-clutch.ts';
import { weighChances } from './weigh-chances.ts';

const CHANCES_KM = [
  250, 500, 1_000, 1_500, 2_000, 3_000, 4_000, 5_000, 7_500, 10_000, 15_000, 20_000, 30_000, 50_000, 100_000,
];

/**
 * Assessment of one vehicle: what its stretches say of the clutch that is fitted now.
 *
 * Series at the reference point and per band, restarted at the last unreported fall back to healthy ({@link traceClutch});
 * posterior over wear, and how it may go on ({@link fitClutch}); evidence of a rise pooled over bands ({@link judgeRise});
 * chances of reaching the limit, and of failures without notice from the platform's life ({@link weighChances}); what people
 * are told of it ({@link tellClutch}).
 *
 * @param input     one vehicle
 * @param settings  of its platform
 * @param context   learned from its platform
 * @param horizonKm planning horizon, km
 * @param lean      kilometres at which a chance is wanted beside: then what only people read is left out (bands' rises,
 * pattern, distances, reasons, forecast, fit line), and everything else is the same to the last digit
 * @returns the assessment, before it is set against the fleet
 * Source: those of the parts. Edges: too few stretches leave fit and forecast null, unless the level alone speaks.
 * Errors: none.
 * @example assessVehicle({ ...nothing, stretches: [] }, settings, unknownPlatform, 5_000).missing // no_usable
 */
export function assessVehicle(
  input: AssessmentInput,
  settings: PlatformSettings,
  context: PlatformContext,
  horizonKm: number,
  lean: readonly number[] | null = null,
): VehicleAssessment {
  const { life, nowKm } = input;
  const { limitRpm } = settings;
  const chancesKm = lean ?? CHANCES_KM;
  const { series, ofLife, ofClutch, fall } = traceClutch(input, settings, context);
  const { points } = ofClutch[0];
  const codes = input.codes.filter((code) => code.lastMs >= (fall?.atMs ?? 0));
  const newAtKm = fall?.atKm ?? (life.fittedKm ?? 0) - (life.runKm ?? 0);
  const suddenWithin = (km: number) =>
    settings.life === null || nowKm === null ? 0 : chanceOfSuddenFailure(settings.life, nowKm - newAtKm, km);
  const base = {
    life: life.number,
    nowKm,
    kmPerDay: measurePace(ofLife, input.nowMs),
    series,
    codes,
    suddenChance: suddenWithin(horizonKm),
  };
  const first = points[0];
  if (first === undefined)
    return {
      ...base,
      ...unfitted,
      missing: listMissing(input, limitRpm, context, points, null),
      chanceWithinHorizon: base.suddenChance,
      chances: chancesKm.map((km) => [km, suddenWithin(km)]),
      pattern: input.codes.length > 0 ? 'code_only' : 'none',
      reasons: input.codes.map((code) => ({ kind: 'code', ...code })),
    };

  const fit = fitClutch(points, limitRpm, context.wear, fall?.atKm ?? life.fittedKm ?? 0, nowKm);
  const rise = judgeRise(ofClutch, fit, context);
  const { summary } = fit;
  return {
    ...base,
    missing: listMissing(input, limitRpm, context, points, rise.onset?.estimate ?? null),
    fromKm: first.km,
    levelRpm: summary.level.mean,
    levelSd: summary.level.sd,
    baseline: summary.baseline,
    onset: rise.onset,
    driftRpmPerKm: rise.risen ? summary.driftRpmPerKm : null,
    p: rise.p,
    drifting: summary.drifting,
    stepping: summary.stepping,
    accelerating: summary.accelerating,
    ...weighChances(fit, limitRpm, horizonKm, chancesKm, suddenWithin),
    ...(lean === null
      ? tellClutch({ series: ofClutch, fall, codes, fit, rise }, settings, context, horizonKm)
      : untold),
  };
}

/** Of a clutch without stretches. */
const unfitted = {
  ...untold,
  fromKm: null,
  levelRpm: null,
  levelSd: 0,
  baseline: null,
  onset: null,
  driftRpmPerKm: null,
  p: null,
  drifting: 0,
  stepping: 0,
  accelerating: 0,
  chancePastLimit: 0,
  chanceSoon: 0,
};
