import { type GateReason, type GateRules, gateReading } from '#server/engine/gate/gate-reading.ts';
import { joinOdometer, type OdometerStep } from '#server/engine/gate/join-odometer.ts';
import { alignSignals } from './align-signals.ts';
import { bandOf, REFERENCE_BAND } from './band-of.ts';
import { binOf } from './bin-of.ts';
import { clutchHeatKw } from './clutch-heat-kw.ts';
import { fluidEdgesC, loadEdgesPct } from './exposure-bins.ts';
import type { StretchRow } from './stretch-row.ts';
import { summariseStretch, type WeighedReading } from './summarise-stretch.ts';
import { type ReferencePoint, weighReading } from './weigh-reading.ts';

/** A stored reading in engine units. */
export interface StretchReading {
  atMs: number;
  odometerKm: number;
  slipRpm: number;
  dutyPct: number;
  fluidC: number | null;
  loadPct: number | null;
  torquePct: number | null;
  speedKmh: number | null;
  shifting: boolean | null;
  codes: readonly string[] | null;
}

export interface StretchRules {
  gate: GateRules;
  bandEdgesPct: readonly number[];
  reference: ReferencePoint;
  /** engine torque that 100 % stands for, N m; null where unknown */
  referenceTorqueNm: number | null;
  /** number of the life at an odometer, km */
  lifeAt: (odometerKm: number) => number;
  /** added to every odometer value before the first reading given, km */
  offsetKm: number;
  /** true where the first reading given is the vehicle's first */
  fromStart: boolean;
}

export type SetAside = Record<string, Partial<Record<GateReason | 'odometer', number>>>;

/** What one stretch of one life held in all. */
export interface StretchTotal {
  life: number;
  stretch: number;
  firstAtMs: number;
  lastAtMs: number;
  usable: number;
  /** month (YYYY-MM, UTC) to reason to count */
  setAside: SetAside;
  /** all 0 where no reading had a temperature */
  fluidBins: number[];
  loadBins: number[] | null;
  heatKwSum: number;
  heatN: number;
  heatSpeedSum: number;
  codes: Record<string, { first: string; last: string; n: number }>;
}

export interface BuiltStretches {
  rows: (StretchRow & { stretch: number })[];
  totals: StretchTotal[];
  /** steps of the odometer, index into the readings */
  steps: OdometerStep[];
  /** odometer of each reading on one continuous track, km; NaN where it is at fault */
  odometerKm: Float64Array;
}

/** Length of a stretch, km. */
export const STRETCH_KM = 500;

/**
 * Stretches of one vehicle from its readings.
 *
 * Joins the odometer, gates each reading, splits the usable ones by life, kilometres and command band, brings those
 * of a stretch to the same signals, and summarises each; the series at the reference point takes all bands with a
 * kernel on duty. A reading at fault of
 * odometer counts for the stretch of the reading before it.
 *
 * @param readings of one vehicle in order of time, each moment once
 * @param rules    of its platform, and its lives
 * @returns stretches, what each held in all, and steps of the odometer
 * Source: composition of {@link joinOdometer}, {@link gateReading}, {@link alignSignals} and
 * {@link summariseStretch}. Edges: the same
 * readings give the same stretches to the last digit, in whatever order they arrived; none give none. Errors: none.
 * @example buildStretches([], rules).rows // []
 */
export function buildStretches(readings: readonly StretchReading[], rules: StretchRules): BuiltStretches {
  const joined = joinOdometer(
    readings.map((reading) => reading.atMs),
    readings.map((reading) => reading.odometerKm),
    rules.offsetKm,
    rules.fromStart,
  );
  const totals = new Map<string, StretchTotal>();
  const groups = new Map<
    string,
    {
      life: number;
      stretch: number;
      band: number;
      atMs: number[];
      readings: Omit<WeighedReading, 'weight'>[];
    }
  >();
  const firstKm = joined.odometerKm.find((km) => !Number.isNaN(km)) ?? 0;
  let km = firstKm;
  readings.forEach((reading, i) => {
    const own = joined.odometerKm[i] ?? Number.NaN;
    if (!Number.isNaN(own)) km = own;
    const life = rules.lifeAt(km);
    const stretch = Math.floor(km / STRETCH_KM);
    const total = totalOf(totals, life, stretch, reading);
    const reason =
      joined.fault[i] === true ? 'odometer' : gateReading(reading, readings[i - 1] ?? null, rules.gate);
    noteCodes(total, reading);
    if (reason !== null) {
      const month = new Date(reading.atMs).toISOString().slice(0, 7);
      const counts = total.setAside[month] ?? {};
      total.setAside[month] = counts;
      counts[reason] = (counts[reason] ?? 0) + 1;
      return;
    }
    noteExposure(total, reading, rules.referenceTorqueNm);
    for (const band of [REFERENCE_BAND, bandOf(reading.dutyPct, rules.bandEdgesPct)]) {
      if (band === null) continue;
      const key = `${life} ${band} ${stretch}`;
      const group = groups.get(key) ?? { life, stretch, band, atMs: [], readings: [] };
      groups.set(key, group);
      group.atMs.push(reading.atMs);
      const { slipRpm, dutyPct, fluidC, loadPct } = reading;
      group.readings.push({ odometerKm: km, slipRpm, dutyPct, fluidC, loadPct });
    }
  });
  const rows = [...groups.values()].map(({ life, stretch, band, atMs, readings: own }) => ({
    life,
    stretch,
    band,
    firstAtMs: atMs[0] ?? 0,
    lastAtMs: atMs.at(-1) ?? 0,
    ...summariseStretch(
      alignSignals(own).map((reading) => ({
        ...reading,
        weight: weighReading(reading, rules.reference, band === REFERENCE_BAND),
      })),
    ),
  }));
  return { rows, totals: [...totals.values()], steps: joined.steps, odometerKm: joined.odometerKm };
}

function totalOf(
  totals: Map<string, StretchTotal>,
  life: number,
  stretch: number,
  reading: StretchReading,
): StretchTotal {
  const key = `${life} ${stretch}`;
  const known = totals.get(key);
  if (known !== undefined) {
    known.lastAtMs = Math.max(known.lastAtMs, reading.atMs);
    return known;
  }
  const total: StretchTotal = {
    life,
    stretch,
    firstAtMs: reading.atMs,
    lastAtMs: reading.atMs,
    usable: 0,
    setAside: {},
    fluidBins: new Array<number>(fluidEdgesC.length + 1).fill(0),
    loadBins: null,
    heatKwSum: 0,
    heatN: 0,
    heatSpeedSum: 0,
    codes: {},
  };
  totals.set(key, total);
  return total;
}

function noteExposure(total: StretchTotal, reading: StretchReading, referenceTorqueNm: number | null): void {
  total.usable++;
  if (reading.fluidC !== null) {
    const fluid = binOf(reading.fluidC, fluidEdgesC);
    total.fluidBins[fluid] = (total.fluidBins[fluid] ?? 0) + 1;
  }
  if (reading.loadPct !== null) {
    total.loadBins ??= new Array<number>(loadEdgesPct.length + 1).fill(0);
    const load = binOf(reading.loadPct, loadEdgesPct);
    total.loadBins[load] = (total.loadBins[load] ?? 0) + 1;
  }
  if (referenceTorqueNm !== null && reading.torquePct !== null && reading.speedKmh !== null) {
    total.heatKwSum += clutchHeatKw((reading.torquePct / 100) * referenceTorqueNm, reading.slipRpm);
    total.heatSpeedSum += reading.speedKmh;
    total.heatN++;
  }
}

function noteCodes(total: StretchTotal, reading: StretchReading): void {
  for (const code of reading.codes ?? []) {
    const at = new Date(reading.atMs).toISOString();
    const seen = total.codes[code];
    total.codes[code] = { first: seen?.first ?? at, last: at, n: (seen?.n ?? 0) + 1 };
  }
}
