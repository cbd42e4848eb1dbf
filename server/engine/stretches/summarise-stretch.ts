import { measureWeightedMedian } from '#server/engine/robust/measure-weighted-median.ts';

/** A usable reading within one stretch and band, with its weight. */
export interface WeighedReading {
  odometerKm: number;
  slipRpm: number;
  dutyPct: number;
  fluidC: number | null;
  loadPct: number | null;
  weight: number;
}

/** Order of {@link StretchSummary.moments}: weighted centred cross products of load, fluid, duty and slip. */
export const momentNames = ['ll', 'lf', 'ld', 'ls', 'ff', 'fd', 'fs', 'dd', 'ds', 'ss'] as const;

export interface StretchSummary {
  n: number;
  weight: number;
  /** effective count (sum w)^2 / sum w^2 */
  effective: number;
  odometerKm: number;
  slipRpm: number;
  scaleRpm: number;
  dutyPct: number;
  fluidC: number | null;
  loadPct: number | null;
  moments: number[];
}

/** Huber's constant: 99 % efficiency at the normal distribution (by his formula, Huber 1981, section 4.5). */
const HUBER_K = 2;
/** Normal consistency of the median absolute deviation, 1 / Phi^-1(3/4). */
const MAD_TO_SD = 1.4826;
/** A lone reading further than this from the median, in scales, is left out altogether. */
const GLITCH = 6;
/** A far reading is lone where no other lies on its side at more than this share of its distance. */
const COMPANY = 0.4;
/** A stretch's spread is never taken as finer than the instruments, rpm. */
const LEAST_SCALE_RPM = 2;
const ITERATIONS = 12;

/**
 * Robust summary of one stretch of kilometres in one command band.
 *
 * Location: Huber M-estimate by iteratively reweighted means from the weighted median. A reading beyond 6 core scales
 * (1.4826 * weighted MAD, at least 2 rpm) of the median, with no other of its side beyond 0.4 of its distance, has
 * weight 0: one glitch leaves no trace. Several far ones are no glitches: a clutch that slips only when hot or loaded
 * hard reads so. Scale: the larger of the core scale and of the weighted root mean square about the median of what is
 * kept, so that such readings count.
 * Mean conditions and cross products use the same final weights, so that slip can later be carried to another
 * condition: slip(x) = slip + beta * (x - mean).
 *
 * @param readings usable readings in time order, not empty; units in the names
 * @returns summary; cross products in the order of {@link momentNames}, in products of the units
 * Source: Huber (1981), Robust Statistics, sections 4.4 and 6.7. Edges: one reading gives itself with the least
 * scale; load and fluid are null, and their cross products 0, where any reading lacks them: {@link alignSignals} goes
 * before. Errors: throws on no readings.
 * @example summariseStretch([oneReading]).slipRpm // its slip
 */
export function summariseStretch(readings: readonly WeighedReading[]): StretchSummary {
  if (readings.length === 0) throw new Error('summariseStretch requires at least one reading');
  const slips = readings.map((reading) => reading.slipRpm);
  const given = readings.map((reading) => reading.weight);
  const middle = measureWeightedMedian(slips, given);
  const deviations = slips.map((slip) => Math.abs(slip - middle));
  const core = Math.max(LEAST_SCALE_RPM, MAD_TO_SD * measureWeightedMedian(deviations, given));
  const lone = findLone(
    slips.map((slip) => slip - middle),
    GLITCH * core,
  );
  const kept = given.map((weight, i) => (lone.has(i) ? 0 : weight));
  const scale = Math.max(core, spreadAround(middle, slips, kept));
  let location = middle;
  let weights = kept;
  for (let step = 0; step < ITERATIONS; step++) {
    const centre = location;
    weights = kept.map((weight, i) => weight * huberWeight((slips[i] ?? 0) - centre, scale));
    const next = mean(slips, weights);
    const moved = Math.abs(next - location);
    location = next;
    if (moved < 1e-9 * scale) break;
  }
  const load = known(readings.map((reading) => reading.loadPct));
  const fluid = known(readings.map((reading) => reading.fluidC));
  const duties = readings.map((reading) => reading.dutyPct);
  const nothing = slips.map(() => 0);
  const columns = [load ?? nothing, fluid ?? nothing, duties, slips];
  const sum = weights.reduce((a, b) => a + b, 0);
  const squares = weights.reduce((a, b) => a + b * b, 0);
  return {
    n: readings.length,
    weight: sum,
    effective: (sum * sum) / squares,
    odometerKm: mean(
      readings.map((reading) => reading.odometerKm),
      weights,
    ),
    slipRpm: location,
    scaleRpm: scale,
    dutyPct: mean(duties, weights),
    fluidC: fluid === null ? null : mean(fluid, weights),
    loadPct: load === null ? null : mean(load, weights),
    moments: crossProducts(columns, weights),
  };
}

/** The values, where none is missing. */
function known(values: (number | null)[]): number[] | null {
  return values.every((value) => value !== null) ? values : null;
}

/** Places of the readings that stand alone far out, at most one on each side. */
function findLone(deviations: readonly number[], farRpm: number): Set<number> {
  const lone = new Set<number>();
  for (const side of [1, -1]) {
    const onSide = deviations.map((deviation) => side * deviation);
    const most = Math.max(...onSide);
    if (most > farRpm && onSide.filter((deviation) => deviation > COMPANY * most).length === 1)
      lone.add(onSide.indexOf(most));
  }
  return lone;
}

function spreadAround(middle: number, slips: readonly number[], weights: readonly number[]): number {
  return Math.sqrt(
    mean(
      slips.map((slip) => (slip - middle) ** 2),
      weights,
    ),
  );
}

function huberWeight(residual: number, scale: number): number {
  const size = Math.abs(residual) / scale;
  return size <= HUBER_K ? 1 : HUBER_K / size;
}

function mean(values: readonly number[], weights: readonly number[]): number {
  let sum = 0;
  let total = 0;
  for (let i = 0; i < values.length; i++) {
    sum += (weights[i] ?? 0) * (values[i] ?? 0);
    total += weights[i] ?? 0;
  }
  return sum / total;
}

function crossProducts(columns: readonly (readonly number[])[], weights: readonly number[]): number[] {
  const centred = columns.map((column) => {
    const centre = mean(column, weights);
    return column.map((value) => value - centre);
  });
  const products: number[] = [];
  for (let a = 0; a < centred.length; a++)
    for (let b = a; b < centred.length; b++)
      products.push(
        weights.reduce((sum, weight, i) => sum + weight * (centred[a]?.[i] ?? 0) * (centred[b]?.[i] ?? 0), 0),
      );
  return products;
}
