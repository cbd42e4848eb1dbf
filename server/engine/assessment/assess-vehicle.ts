import { LEAST_VEHICLES } from '#server/engine/platform/estimate-common-movement.ts';
import type { PlatformContext, PlatformSettings } from '#server/engine/platform/platform-context.ts';
import { unknownBand } from '#server/engine/platform/unknown-band.ts';
import { REFERENCE_BAND } from '#server/engine/stretches/band-of.ts';
import type { StretchRow } from '#server/engine/stretches/stretch-row.ts';
import { chanceOfSuddenFailure } from '#server/engine/wear/chance-of-sudden-failure.ts';
import { chanceWithin } from '#server/engine/wear/chance-within.ts';
import { fitWear } from '#server/engine/wear/fit-wear.ts';
import { measureRaggedness } from '#server/engine/wear/measure-raggedness.ts';
import type { Outlook } from '#server/engine/wear/outlook.ts';
import { predictPassage } from '#server/engine/wear/predict-passage.ts';
import { predictSlip } from '#server/engine/wear/predict-slip.ts';
import { recalibrateChance } from '#server/engine/wear/recalibrate-chance.ts';
import { LAST_POINTS, settleCases } from '#server/engine/wear/settle-cases.ts';
import { slipAhead } from '#server/engine/wear/slip-ahead.ts';
import { steadyRaggedness } from '#server/engine/wear/steady-raggedness.ts';
import { thinOutlooks } from '#server/engine/wear/thin-outlooks.ts';
import type { WearCase } from '#server/engine/wear/wear-model.ts';
import type { ForecastPoint, Missing, VehicleAssessment } from './assessment-model.ts';
import { buildSeries, type Series, type SeriesPoint } from './build-series.ts';
import { compareBands } from './compare-bands.ts';
import { giveReasons } from './give-reasons.ts';
import { listFallsBack } from './list-falls-back.ts';
import { meanPath } from './mean-path.ts';
import { preparePoints } from './prepare-points.ts';
import { summariseCases } from './summarise-cases.ts';
import { tellPattern } from './tell-pattern.ts';
import { weighEvidence } from './weigh-evidence.ts';

/** A life of which the assessment is asked. */
export interface AssessedLife {
  number: number;
  /** null where nobody registered it */
  fittedKm: number | null;
  /** what the converter had run before it was fitted; left out where that is not known */
  runKm?: number;
}

export interface AssessmentInput {
  /** stretches of one vehicle, all bands and lives */
  stretches: readonly StretchRow[];
  life: AssessedLife;
  nowKm: number | null;
  nowMs: number;
  lastReadingMs: number | null;
  codes: readonly { code: string; n: number; lastMs: number }[];
  hasPlatform: boolean;
}

/** Stretches at the reference point below which nothing is said of drift. */
export const LEAST_STRETCHES = 6;
/** The level at the reference point may be wrong by this share of the rise; without the load by more. Own choice, from simulated fleets. */
const LEVEL_SHARE = 0.1;
const LEVEL_SHARE_WITHOUT_LOAD = 0.2;
/** What the vehicle has driven since the middle of its last stretch; a lone odometer value far ahead counts no more. */
const MOST_SINCE_KM = 1_500;
/** Kilometres over which the climb of slip as of now is told. */
const CLIMB_KM = 1_000;
/** `hold` asks for the chance within this many kilometres. */
const SOON_KM = 1_000;
/** A gateway that was silent for so many days is quiet. */
const QUIET_DAYS = 14;
/** Stretches before the onset below which the healthy level is the platform's more than the vehicle's own. */
const LEAST_START = 4;
const FAN = [0.025, 0.1, 0.25, 0.5, 0.75, 0.9, 0.975] as const;
const FAN_POINTS = 24;
/** As many outlooks draw the same fan. */
const FAN_OUTLOOKS = 100;
const CHANCES_KM = [
  250, 500, 1_000, 1_500, 2_000, 3_000, 4_000, 5_000, 7_500, 10_000, 15_000, 20_000, 30_000, 50_000, 100_000,
];
const DAY_MS = 86_400_000;
const PACE_DAYS = 60;

/**
 * Assessment of one vehicle: what its stretches say of the clutch that is fitted now.
 *
 * Series at the reference point and per band ({@link buildSeries}), restarted at the last unreported fall back to
 * healthy ({@link listFallsBack}); evidence of a rise pooled over bands ({@link weighEvidence}); posterior over
 * wear ({@link fitWear}) with first passage of the limit, its chances set right ({@link recalibrateChance}); failures
 * without notice from the platform's life.
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
  const chancesKm = lean ?? CHANCES_KM;
  const bands = [REFERENCE_BAND, ...settings.bandEdgesPct.slice(1).map((_, i) => i)];
  const contextOf = (band: number) => context.bands.find((one) => one.band === band) ?? unknownBand(band);
  const byBand = new Map(bands.map((band) => [band, [] as StretchRow[]]));
  for (const row of input.stretches) byBand.get(row.band)?.push(row);
  const series = bands.map((band) =>
    buildSeries(byBand.get(band) ?? [], contextOf(band), settings.reference),
  );
  const reference = series[0] ?? {
    band: REFERENCE_BAND,
    points: [],
    effects: contextOf(REFERENCE_BAND).effects,
  };
  const current = reference.points.filter((point) => point.life === input.life.number);
  const fallIndex = listFallsBack(current, contextOf(REFERENCE_BAND)).at(-1);
  const points = current.slice(fallIndex ?? 0);
  const fall = fallIndex === undefined ? null : tellFall(current, fallIndex);
  const codes = input.codes.filter((code) => code.lastMs >= (fall?.atMs ?? 0));
  const missing = listMissing(input, settings, context, points);
  const kmPerDay = paceOf(current, input.nowMs);
  const newAtKm = fall?.atKm ?? (input.life.fittedKm ?? 0) - (input.life.runKm ?? 0);
  const runKm = (input.nowKm ?? 0) - newAtKm;
  const suddenWithin = (km: number) =>
    settings.life === null || input.nowKm === null ? 0 : chanceOfSuddenFailure(settings.life, runKm, km);
  const suddenChance = suddenWithin(horizonKm);
  const base = {
    life: input.life.number,
    nowKm: input.nowKm,
    kmPerDay,
    series,
    codes,
    missing,
    suddenChance,
  };
  const first = points[0];
  const last = points.at(-1);
  if (first === undefined || last === undefined) {
    const chances = chancesKm.map((km): [number, number] => [km, suddenWithin(km)]);
    return { ...base, ...nothingKnown(input), chanceWithinHorizon: suddenChance, chances };
  }

  const prepared = preparePoints(points);
  const earliestKm = fall?.atKm ?? input.life.fittedKm ?? 0;
  const cases = fitWear(prepared.points, settings.limitRpm, context.wear, prepared.independence, earliestKm);
  const ragged = measureRaggedness(cases, prepared.points, settings.limitRpm);
  const settled = settleCases(cases, prepared.points, {
    limitRpm: settings.limitRpm,
    logSpanMean: context.wear.logSpanMean,
    waySd: context.wear.waySd,
    raggedRpm: steadyRaggedness(ragged, context.wear.raggedRpm),
    levelShare: points.some((point) => point.loadPct !== null) ? LEVEL_SHARE : LEVEL_SHARE_WITHOUT_LOAD,
  });
  const sinceKm = Math.min(MOST_SINCE_KM, Math.max(0, (input.nowKm ?? last.km) - last.km));
  const ahead = settled.map((one) => ({ ...one, goneKm: one.goneKm + sinceKm }));
  const summary = summariseCases(cases, last.km, settled);
  const inLife = (one: Series): Series => ({
    ...one,
    points: one.points.filter((point) => point.life === input.life.number && point.km >= first.km),
  });
  const evidence = weighEvidence(series.map(inLife), prepared.independence, contextOf, summary.level);
  const arrivedSlipping =
    summary.drifting + summary.stepping > 0.5 &&
    (summary.onset?.estimate ?? Number.POSITIVE_INFINITY) <= first.km &&
    evidence.levelSpeaks;
  const risen = evidence.p < 0.05 && summary.drifting + summary.stepping > 0.5;
  const onsetKm = risen ? (summary.onset?.estimate ?? null) : null;
  if (onsetKm !== null && points.filter((point) => point.km < onsetKm).length < LEAST_START)
    missing.push({ kind: 'short_start' });
  const pastNow = chancePast(ahead, settings.limitRpm);
  const wornWithin = (km: number) => recalibrateChance(chanceWithin(ahead, km, settings.limitRpm), pastNow);
  const assessed = {
    ...base,
    fromKm: first.km,
    levelRpm: summary.level.mean,
    levelSd: summary.level.sd,
    baseline: summary.baseline,
    onset: risen ? summary.onset : null,
    driftRpmPerKm: risen ? summary.driftRpmPerKm : null,
    p: points.length >= LEAST_STRETCHES ? evidence.p : evidence.levelSpeaks ? evidence.p : null,
    drifting: summary.drifting,
    stepping: summary.stepping,
    accelerating: summary.accelerating,
    chancePastLimit: pastNow,
    chanceSoon: wornWithin(SOON_KM),
    chanceWithinHorizon: 1 - (1 - wornWithin(horizonKm)) * (1 - suddenChance),
    chances: chancesKm.map((km): [number, number] => [km, 1 - (1 - wornWithin(km)) * (1 - suddenWithin(km))]),
  };
  if (lean !== null) return { ...assessed, ...untold };

  const bandRises = compareBands(series.slice(1).map(inLife), summary.onset?.estimate ?? null, first.km);
  const usualEffects = contextOf(REFERENCE_BAND).effects;
  const rise = Math.max(0, summary.level.mean - summary.baseline.estimate) / 100;
  const hotRpmPerC = {
    own: reference.effects.healthy[1] + reference.effects.worn[1] * rise,
    usual: usualEffects.healthy[1] + usualEffects.worn[1] * rise,
  };
  const pattern = tellPattern({
    summary,
    limitRpm: settings.limitRpm,
    arrivedSlipping,
    fellBack: fall !== null,
    bandRises,
    hotRpmPerC,
    hasCode: codes.length > 0,
    risen,
  });
  const passage = predictPassage(ahead, settings.limitRpm);
  return {
    ...assessed,
    passage: risen ? passage : null,
    forecast: risen
      ? drawFan(
          thinOutlooks(ahead, settings.limitRpm, FAN_OUTLOOKS),
          last.km + sinceKm,
          settings.limitRpm,
          horizonKm,
          passage?.p90 ?? horizonKm,
        )
      : [],
    fitLine: drawFit(cases, points, settings.limitRpm, summary.onset?.estimate ?? null, summary.level.mean),
    bandRises,
    pattern,
    reasons: giveReasons({
      summary,
      settings,
      points,
      passage: risen ? passage : null,
      pattern,
      bandRises,
      hotRpmPerC,
      usualRpm: context.wear.baselineRpm,
      codes,
      fall,
      events: context.events,
      arrivedSlipping,
      nowRpmPerKm: climbNow(ahead, settings.limitRpm),
      risen,
    }),
  };
}

/** What a lean assessment leaves out. */
const untold = {
  passage: null,
  forecast: [],
  fitLine: [],
  bandRises: [],
  pattern: 'none' as const,
  reasons: [],
};

function nothingKnown(input: AssessmentInput) {
  return {
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
    passage: null,
    chancePastLimit: 0,
    chanceSoon: 0,
    forecast: [],
    fitLine: [],
    bandRises: [],
    pattern: input.codes.length > 0 ? ('code_only' as const) : ('none' as const),
    reasons: input.codes.map((code) => ({ kind: 'code' as const, ...code })),
  };
}

function tellFall(points: readonly SeriesPoint[], index: number) {
  const mean = (part: readonly SeriesPoint[]) =>
    part.reduce((sum, point) => sum + point.slipRpm, 0) / part.length;
  return {
    fromRpm: mean(points.slice(Math.max(0, index - 4), index)),
    toRpm: mean(points.slice(index, index + 4)),
    atKm: points[index]?.km ?? 0,
    atMs: points[index]?.atMs ?? 0,
  };
}

function listMissing(
  input: AssessmentInput,
  settings: PlatformSettings,
  context: PlatformContext,
  points: readonly SeriesPoint[],
): Missing[] {
  const missing: Missing[] = [];
  if (input.stretches.length === 0) missing.push({ kind: 'no_usable' });
  else if (points.length < LEAST_STRETCHES)
    missing.push({ kind: 'few_stretches', have: points.length, need: LEAST_STRETCHES });
  if (!input.hasPlatform) missing.push({ kind: 'no_platform', limitRpm: settings.limitRpm });
  else if (context.vehicles < LEAST_VEHICLES)
    missing.push({ kind: 'small_platform', vehicles: context.vehicles });
  if (points.length > 0 && points.every((point) => point.loadPct === null)) missing.push({ kind: 'no_load' });
  if (points.length > 0 && points.every((point) => point.fluidC === null))
    missing.push({ kind: 'no_temperature' });
  const days = input.lastReadingMs === null ? 0 : Math.floor((input.nowMs - input.lastReadingMs) / DAY_MS);
  if (days >= QUIET_DAYS) missing.push({ kind: 'quiet', days });
  return missing;
}

/** Kilometres per day over the last 60 days of points. */
function paceOf(points: readonly SeriesPoint[], nowMs: number): number | null {
  const last = points.at(-1);
  if (last === undefined) return null;
  const recent = points.filter((point) => point.atMs > Math.min(nowMs, last.atMs) - PACE_DAYS * DAY_MS);
  const first = recent[0];
  if (first === undefined || last.atMs - first.atMs < 3 * DAY_MS) return null;
  return (last.km - first.km) / ((last.atMs - first.atMs) / DAY_MS);
}

/** How fast slip climbs over the next kilometres, rpm per km. */
function climbNow(outlooks: readonly Outlook[], limitRpm: number): number {
  const slipIn = (km: number) =>
    outlooks.reduce((sum, one) => sum + one.weight * slipAhead(one, km, limitRpm), 0);
  return (slipIn(CLIMB_KM) - slipIn(0)) / CLIMB_KM;
}

/** Chance that the true slip is past the limit now. */
function chancePast(outlooks: readonly Outlook[], limitRpm: number): number {
  return outlooks.reduce((sum, one) => sum + (one.levelRpm >= limitRpm ? one.weight : 0), 0);
}

function drawFan(
  outlooks: readonly Outlook[],
  nowKm: number,
  limitRpm: number,
  horizonKm: number,
  farKm: number,
): ForecastPoint[] {
  const reach = Math.min(40_000, Math.max(horizonKm, 1.1 * farKm));
  return Array.from({ length: FAN_POINTS + 1 }, (_, i) => {
    const aheadKm = (reach * i) / FAN_POINTS;
    return { km: nowKm + aheadKm, slipRpm: predictSlip(outlooks, aheadKm, limitRpm, FAN) };
  });
}

/** The path through the life, bent over the last points to where slip stands now: there the fan begins. */
function drawFit(
  cases: readonly WearCase[],
  points: readonly SeriesPoint[],
  limitRpm: number,
  onsetKm: number | null,
  levelRpm: number,
): [number, number][] {
  const steps = 40;
  const fromKm = points[0]?.km ?? 0;
  const toKm = points.at(-1)?.km ?? fromKm;
  const bentKm = points.at(-LAST_POINTS)?.km ?? fromKm;
  const bentRpm = levelRpm - meanPath(cases, toKm, limitRpm);
  const kms = Array.from({ length: steps + 1 }, (_, i) => fromKm + ((toKm - fromKm) * i) / steps);
  for (const km of [onsetKm ?? fromKm, bentKm]) if (km > fromKm && km < toKm) kms.push(km);
  return kms
    .sort((a, b) => a - b)
    .map((km) => {
      const bent = toKm > bentKm ? Math.max(0, (km - bentKm) / (toKm - bentKm)) : 1;
      return [km, meanPath(cases, km, limitRpm) + bent * bentRpm];
    });
}
