import { buildSeries, type Series, type SeriesPoint } from '#server/engine/assessment/build-series.ts';
import { listFallsBack } from '#server/engine/assessment/list-falls-back.ts';
import { measureRises } from '#server/engine/assessment/measure-rises.ts';
import { preparePoints } from '#server/engine/assessment/prepare-points.ts';
import { fitConditionEffects } from '#server/engine/conditions/fit-condition-effects.ts';
import { measureMedian } from '#server/engine/robust/measure-median.ts';
import { measureWeightedMad } from '#server/engine/robust/measure-weighted-mad.ts';
import { REFERENCE_BAND } from '#server/engine/stretches/band-of.ts';
import type { StretchRow } from '#server/engine/stretches/stretch-row.ts';
import { momentNames } from '#server/engine/stretches/summarise-stretch.ts';
import {
  FLUID_WIDTH_C,
  LOAD_WIDTH_PCT,
  type ReferencePoint,
} from '#server/engine/stretches/weigh-reading.ts';
import { learnWear } from '#server/engine/wear/learn-wear.ts';
import { defaultWearPrior, type SeenClutch } from '#server/engine/wear/wear-model.ts';
import { estimateCommonMovement, type WeeklySeries } from './estimate-common-movement.ts';
import { findFleetEvents } from './find-fleet-events.ts';
import {
  type BandContext,
  CONTEXT_VERSION,
  type PlatformContext,
  type PlatformSettings,
} from './platform-context.ts';
import { unknownBand } from './unknown-band.ts';
import { usualCondition } from './usual-condition.ts';
import { weekOf } from './week-of.ts';

const LOAD_SQUARES = momentNames.indexOf('ll');
const FLUID_SQUARES = momentNames.indexOf('ff');
/** Vehicles' worth of the default baseline that a small platform is steadied by. */
const PRIOR_VEHICLES = 2;
const LEAST_BASELINE_SD = 4;
/** Effects tell how far vehicles have risen, the rise tells the effects: twice round is enough. */
const ROUNDS = 2;
/** Stretches from which a vehicle's own healthy slip is taken at the most. */
const EARLY_STRETCHES = 20;

/**
 * What the vehicles of a platform have in common: usual slip, effects of the conditions, common movement with its
 * steps, and the spread of healthy slip between vehicles, for the reference point and for each command band.
 *
 * @param vehicles stretches of each vehicle of the platform, all bands and lives; of a large one, some evenly spread
 * ({@link takeEvenly})
 * @param settings of the platform
 * @returns context for the assessment of each vehicle
 * Source: hierarchical (empirical Bayes) shrinkage to a group, Lindley and Smith 1972. Edges: few vehicles leave
 * the default prior and no movement. Errors: none.
 * @example learnPlatform([], settings).vehicles // 0
 */
export function learnPlatform(
  vehicles: readonly (readonly StretchRow[])[],
  settings: PlatformSettings,
): PlatformContext {
  const bands = [REFERENCE_BAND, ...settings.bandEdgesPct.slice(1).map((_, i) => i)];
  const learned = bands.map((band) => learnBand(band, vehicles, settings));
  const reference = learned[0]?.context ?? unknownBand(REFERENCE_BAND);
  const { baselineRpm, baselineSd } = reference;
  const clutches = (learned[0]?.series ?? []).flatMap(({ points }) => listClutches(points, reference));
  return {
    version: CONTEXT_VERSION,
    bands: learned.map(({ context }) => context),
    wear: learnWear(clutches, settings.limitRpm, { ...defaultWearPrior, baselineRpm, baselineSd }),
    events: findFleetEvents(reference.movement),
    vehicles: vehicles.length,
  };
}

/** The clutches of one vehicle: a life each, parted at falls back to healthy that nobody reported. */
function listClutches(points: readonly SeriesPoint[], reference: BandContext): SeenClutch[] {
  const lives = new Set(points.map((point) => point.life));
  return [...lives].flatMap((life) => {
    const own = points.filter((point) => point.life === life);
    const starts = [0, ...listFallsBack(own, reference)];
    const parts = starts.map((from, i) => own.slice(from, starts[i + 1]));
    return parts.flatMap((part, i) => {
      const first = part[0];
      if (first === undefined) return [];
      const isSeenFromStart = i > 0 || life > (points[0]?.life ?? life);
      return [{ ...preparePoints(part), earliestKm: isSeenFromStart ? first.km : 0 }];
    });
  });
}

interface LearnedBand {
  context: BandContext;
  /** of each vehicle that has the band; at the reference point only */
  series: Series[];
}

function learnBand(
  band: number,
  vehicles: readonly (readonly StretchRow[])[],
  settings: PlatformSettings,
): LearnedBand {
  const own = vehicles
    .map((rows) =>
      rows.filter((row) => row.band === band).sort((a, b) => a.life - b.life || a.odometerKm - b.odometerKm),
    )
    .filter((rows) => rows.length > 0);
  if (own.length === 0) return { context: unknownBand(band), series: [] };
  const usualRpm = measureMedian(own.map((rows) => measureMedian(rows.map((row) => row.slipRpm))));
  const all = own.flat();
  let known: BandContext = { ...unknownBand(band), usualRpm, usual: usualOf(all, settings.reference) };
  for (let round = 0; round < ROUNDS; round++) {
    const effects = fitConditionEffects(
      all,
      own.flatMap((rows) => measureRises(rows, known.movement, usualRpm).rises),
      null,
    );
    const still = { ...known, effects };
    // One vehicle after the other, so that the series of all are never held together.
    const weekly = own.map((rows) => byWeek(buildSeries(rows, still, settings.reference)));
    known = { ...still, movement: estimateCommonMovement(weekly) };
  }
  const early: number[] = [];
  const series: Series[] = [];
  for (const rows of own) {
    const one = buildSeries(rows, known, settings.reference);
    early.push(earlySlip(one));
    if (band === REFERENCE_BAND) series.push(one);
  }
  return { context: { ...known, ...baselineOf(early) }, series };
}

function byWeek(series: Series): WeeklySeries {
  const sums = new Map<number, { weight: number; sum: number }>();
  for (const point of series.points) {
    const week = weekOf(point.atMs);
    const cell = sums.get(week) ?? { weight: 0, sum: 0 };
    const weight = 1 / point.seRpm ** 2;
    sums.set(week, {
      weight: cell.weight + weight,
      sum: cell.sum + weight * (point.slipRpm + point.movementRpm),
    });
  }
  return { byWeek: new Map([...sums].map(([week, cell]) => [week, cell.sum / cell.weight])) };
}

/** Load and fluid temperature behind the stretches, as a feed without them would have them on the mean. */
function usualOf(rows: readonly StretchRow[], reference: ReferencePoint): BandContext['usual'] {
  const pooled = (place: number, mean: (row: StretchRow) => number | null) =>
    rows.flatMap((row) => {
      const value = mean(row);
      if (value === null) return [];
      return [{ mean: value, variance: (row.moments[place] ?? 0) / row.weight, weight: row.weight }];
    });
  const [load, fluid] = [
    pooled(LOAD_SQUARES, (row) => row.loadPct),
    pooled(FLUID_SQUARES, (row) => row.fluidC),
  ];
  return {
    loadPct: usualCondition(load, reference.loadPct, LOAD_WIDTH_PCT),
    fluidC: usualCondition(fluid, reference.fluidC, FLUID_WIDTH_C),
  };
}

/** Median of a vehicle's first stretches. */
function earlySlip({ points }: Series): number {
  const first = points.slice(0, Math.max(3, Math.min(EARLY_STRETCHES, Math.ceil(points.length / 3))));
  return measureMedian(first.map((point) => point.slipRpm));
}

/** Healthy slip of the vehicles: the centre of their first stretches, and its robust spread. */
function baselineOf(early: readonly number[]): { baselineRpm: number; baselineSd: number } {
  const centre = measureMedian(early);
  const n = early.length;
  const seen = early.length < 3 ? 0 : measureWeightedMad(early) ** 2;
  const prior = defaultWearPrior;
  const share = n / (n + PRIOR_VEHICLES);
  return {
    baselineRpm: share * centre + (1 - share) * prior.baselineRpm,
    baselineSd: Math.max(LEAST_BASELINE_SD, Math.sqrt(share * seen + (1 - share) * prior.baselineSd ** 2)),
  };
}
