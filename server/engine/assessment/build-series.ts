import { correctToReference } from '#server/engine/conditions/correct-to-reference.ts';
import {
  type ConditionEffects,
  fitConditionEffects,
} from '#server/engine/conditions/fit-condition-effects.ts';
import { measureSpreadLeft } from '#server/engine/conditions/measure-spread-left.ts';
import type { BandContext } from '#server/engine/platform/platform-context.ts';
import { measureMedian } from '#server/engine/robust/measure-median.ts';
import { measureWeightedMad } from '#server/engine/robust/measure-weighted-mad.ts';
import { runningMedian } from '#server/engine/smooth/running-median.ts';
import { REFERENCE_BAND } from '#server/engine/stretches/band-of.ts';
import type { StretchRow } from '#server/engine/stretches/stretch-row.ts';
import type { ReferencePoint } from '#server/engine/stretches/weigh-reading.ts';
import { measureRises } from './measure-rises.ts';

/** One stretch, carried to the reference point and freed of what moved the whole platform. */
export interface SeriesPoint {
  life: number;
  km: number;
  atMs: number;
  slipRpm: number;
  /** common movement that was taken out, rpm */
  movementRpm: number;
  measuredRpm: number;
  /** standard error of slipRpm, rpm */
  seRpm: number;
  weight: number;
  dutyPct: number;
  /** null where not known, as the load */
  fluidC: number | null;
  loadPct: number | null;
}

export interface Series {
  band: number;
  points: SeriesPoint[];
  effects: ConditionEffects;
  /** how far slip had risen at each point, in 100 rpm: what the effects depend on */
  rises: number[];
}

/** A stretch far from the reference point counts as a small part of a reading, for what its correction may miss. */
const LEAST_COUNT = 0.1;
/** Half width of the running median of the spreads within stretches. */
const SCALE_HALF = 5;
/** Readings' worth of that spread by which a stretch's own spread is steadied. */
const STEADY_N = 4;
/** A stretch's spread is never taken as finer than the instruments, rpm. */
const LEAST_SCALE_RPM = 2;

/**
 * Series of slip at the reference point of one vehicle and band.
 *
 * Effects of the conditions are those of the platform, moved towards what the vehicle itself shows; each stretch is
 * carried to the reference point with them, and the platform's common movement in its week is taken off. A stretch
 * that lacks load or temperature is carried from the mean of the vehicle's other stretches: where a gateway gains or
 * loses a signal, slip must not seem to jump. A vehicle that never has it is carried from what is usual on its
 * platform. Standard error: sqrt(tau^2 + s^2 / n_eff), s the spread that the conditions leave within the stretch,
 * steadied by the vehicle's usual one, tau what differs from stretch to stretch beyond that: tau^2 = max(1, (1.4826
 * MAD of successive differences)^2 / 2 - median s^2 / n_eff).
 *
 * @param stretches of one vehicle and band, in any order
 * @param context   of the platform and band
 * @param reference the point
 * @returns points in order of life and km
 * Source: engine's own composition of local regression and shrinkage. Edges: none gives no points; a signal
 * that no vehicle of the platform has is not corrected for. Errors: none.
 * @example buildSeries([], unknownBand(0), reference).points // []
 */
export function buildSeries(
  stretches: readonly StretchRow[],
  context: BandContext,
  reference: ReferencePoint,
): Series {
  const rows = putInOrder(stretches);
  const withDuty = context.band === REFERENCE_BAND;
  const usualLoad = meanOfKnown(rows, (row) => row.loadPct) ?? context.usual.loadPct;
  const usualFluid = meanOfKnown(rows, (row) => row.fluidC) ?? context.usual.fluidC;
  const measured = measureRises(rows, context.movement, context.usualRpm);
  const { rises } = measured;
  const effects = fitConditionEffects(rows, rises, context.effects);
  // This runs for each band of each vehicle every day of a replay, so it goes by columns and place by place.
  const n = rows.length;
  const slips: number[] = [];
  const scales: number[] = [];
  const at = { slipRpm: 0, dutyPct: 0, loadPct: usualLoad, fluidC: usualFluid };
  for (let i = 0; i < n; i++) {
    const row = rows[i];
    if (row === undefined) continue;
    at.slipRpm = measured.slipRpm[i] ?? 0;
    at.dutyPct = row.dutyPct;
    at.loadPct = row.loadPct ?? usualLoad;
    at.fluidC = row.fluidC ?? usualFluid;
    slips.push(correctToReference(at, effects, context.usualRpm, reference, withDuty));
    const left = measureSpreadLeft(row.moments, row.weight, rises[i] ?? 0, effects);
    scales.push(Math.max(LEAST_SCALE_RPM, left));
  }
  const nearScale = runningMedian(scales, SCALE_HALF);
  const within: number[] = [];
  for (let i = 0; i < n; i++) {
    const { effective = 0, weight = 0 } = rows[i] ?? {};
    const usual = nearScale[i] ?? LEAST_SCALE_RPM;
    const spread = (effective * (scales[i] ?? usual) ** 2 + STEADY_N * usual ** 2) / (effective + STEADY_N);
    within.push(spread / Math.max(LEAST_COUNT, Math.min(effective, 2 * weight)));
  }
  const steps: number[] = [];
  for (let i = 1; i < slips.length; i++) steps.push((slips[i] ?? 0) - (slips[i - 1] ?? 0));
  const between =
    steps.length < 4 ? 9 : Math.max(1, measureWeightedMad(steps) ** 2 / 2 - measureMedian(within));
  const points: SeriesPoint[] = [];
  for (let i = 0; i < n; i++) {
    const row = rows[i];
    if (row === undefined) continue;
    points.push({
      life: row.life,
      km: row.odometerKm,
      atMs: measured.atMs[i] ?? 0,
      slipRpm: slips[i] ?? 0,
      movementRpm: measured.movementRpm[i] ?? 0,
      measuredRpm: row.slipRpm,
      seRpm: Math.sqrt(between + (within[i] ?? 0)),
      weight: row.effective,
      dutyPct: row.dutyPct,
      fluidC: row.fluidC,
      loadPct: row.loadPct,
    });
  }
  return { band: context.band, points, effects, rises };
}

/** In order of life and km; as they came where they are so already. */
function putInOrder(stretches: readonly StretchRow[]): readonly StretchRow[] {
  for (let i = 1; i < stretches.length; i++) {
    const [before, after] = [stretches[i - 1], stretches[i]];
    if (before !== undefined && after !== undefined && compare(before, after) > 0)
      return [...stretches].sort(compare);
  }
  return stretches;
}

const compare = (a: StretchRow, b: StretchRow): number => a.life - b.life || a.odometerKm - b.odometerKm;

function meanOfKnown(rows: readonly StretchRow[], figure: (row: StretchRow) => number | null): number | null {
  let known = 0;
  let sum = 0;
  for (const row of rows) {
    const value = figure(row);
    if (value === null) continue;
    known++;
    sum += value;
  }
  return known === 0 ? null : sum / known;
}
