import { joinOdometer } from '#server/engine/gate/join-odometer.ts';
import {
  type BuiltStretches,
  buildStretches,
  type StretchReading,
  type StretchRules,
  type StretchTotal,
} from './build-stretches.ts';

/** Stretches of one vehicle that grow with its readings. */
export interface GrowingStretches {
  rows: BuiltStretches['rows'];
  totals: StretchTotal[];
  /** the newest readings, in order of time: those from which what comes next is built */
  readings: StretchReading[];
  /** on one continuous track, as many as readings; NaN where at fault, km */
  odometerKm: number[];
  /** added to odometer values before the first of these readings, km */
  offsetKm: number;
  /** whether that one is the vehicle's first */
  fromStart: boolean;
  steps: { atMs: number; offsetKm: number }[];
  /** stretches that end before stay as they are, ms */
  fixedBeforeMs: number;
  /** stretches whose readings are not all there, by life and number: they stay too */
  sealed: ReadonlySet<string>;
}

/** Where stretches begin to grow. */
export interface GrowthStart {
  rows: BuiltStretches['rows'];
  totals: StretchTotal[];
  /** some before what is to be built, so that the odometer goes on from there; in order of time */
  guard: readonly StretchReading[];
  /** in force at the first of them, km */
  offsetKm: number;
  /** whether the first of them, or the first to come, is the vehicle's first */
  fromStart: boolean;
  fixedBeforeMs: number;
  sealed: ReadonlySet<string>;
}

/** The rules but for what the stretches themselves know. */
export type GrowthRules = Omit<StretchRules, 'offsetKm' | 'fromStart'>;

/** A start of fewer readings may still turn out to be wrong, see {@link joinOdometer}. */
const SURE_START = 12;

/**
 * Name of a stretch within its vehicle.
 *
 * @param place life and number of the stretch
 * @returns both, with a space between
 * Source: own rule. Edges, errors: none.
 * @example nameStretch({ life: 1, stretch: 200 }) // '1 200'
 */
export const nameStretch = ({ life, stretch }: { life: number; stretch: number }) => `${life} ${stretch}`;

/**
 * Makes of a start what can grow: joins the odometer of its guard.
 *
 * @param start stretches that are had already, and readings before those to come
 * @returns the same stretches, to be given to {@link growStretches}
 * Source: own composition. Edges: nothing at all is a good start. Errors: none.
 * @example beginStretches(nothing).readings // []
 */
export function beginStretches({ guard, ...start }: GrowthStart): GrowingStretches {
  const { odometerKm, steps } = joinOdometer(
    guard.map(({ atMs }) => atMs),
    guard.map((reading) => reading.odometerKm),
    start.offsetKm,
    start.fromStart,
  );
  return {
    ...start,
    readings: [...guard],
    odometerKm: [...odometerKm],
    steps: steps.map(({ index, offsetKm }) => ({ atMs: guard[index]?.atMs ?? 0, offsetKm })),
  };
}

/**
 * Stretches of one vehicle with some more of its readings, without building those again that the new ones cannot touch.
 *
 * Built again is what lies in stretches from that of the reading before the first new one on, and whatever overlaps them
 * in time; from the last reading before whose kilometres are the furthest so far on the joined track, since there the
 * state of {@link joinOdometer} is known. The result is to the last digit what {@link buildStretches} makes of all readings.
 *
 * @param known stretches so far
 * @param fresh new readings, in any order; none older than what `known` still has
 * @param rules of its platform, and its lives
 * @returns stretches with them
 * Source: own composition. Edges: a reading that takes an odometer step, or goes back over the border of a stretch, has more
 * built again; sealed stretches, and those before `fixedBeforeMs`, stay. Errors: none.
 * @example growStretches(begun, [], rules) // as they were
 */
export function growStretches(
  known: GrowingStretches,
  fresh: readonly StretchReading[],
  rules: GrowthRules,
): GrowingStretches {
  if (fresh.length === 0) return known;
  const firstMs = Math.min(...fresh.map(({ atMs }) => atMs));
  const readings = insert(known.readings, fresh);
  let fromMs = partBefore(known.totals, firstMs);
  if (known.fromStart && findStart(known, fromMs).index === 0) fromMs = known.fixedBeforeMs;
  for (;;) {
    fromMs = Math.max(fromMs, known.fixedBeforeMs);
    const grown = rebuild(known, readings, fromMs, rules);
    const before = grown.again === null || fromMs <= known.fixedBeforeMs ? null : grown.again;
    if (before === null || before >= fromMs) return grown.stretches;
    fromMs = clearOf(known.totals, before);
  }
}

/**
 * Forgets the readings that nothing new can need.
 *
 * @param known   stretches so far
 * @param untilMs no new reading will be older, ms
 * @returns the same stretches with fewer readings
 * Source: own rule: those of two stretches before that moment are kept, and where the joined odometer is sure. Edges: keeps
 * all where it is sure nowhere. Errors: none.
 * @example trimStretches(begun, 0) // as they were
 */
export function trimStretches(known: GrowingStretches, untilMs: number): GrowingStretches {
  // One stretch more: a reading may go back over its border.
  const keptMs = partBefore(known.totals, partBefore(known.totals, untilMs));
  const start = findStart(known, keptMs);
  if (start.index === 0) return known;
  const firstMs = known.readings[start.index]?.atMs ?? 0;
  return {
    ...known,
    readings: known.readings.slice(start.index),
    odometerKm: known.odometerKm.slice(start.index),
    offsetKm: start.offsetKm,
    fromStart: false,
    steps: known.steps.filter(({ atMs }) => atMs > firstMs),
    fixedBeforeMs: Math.max(known.fixedBeforeMs, keptMs),
  };
}

/**
 * A moment at which stretches can be parted: none lies on both sides of it.
 *
 * @param totals stretches of one vehicle
 * @param ms     moment
 * @returns the start of the stretch that the last reading before the moment belongs to, or of one that overlaps it
 * Source: own rule. Edges: without stretches the moment itself. Errors: none.
 * @example partBefore([], 1_000) // 1_000
 */
export function partBefore(totals: readonly Placed[], ms: number): number {
  return clearOf(totals, startBefore(totals, ms));
}

type Placed = Pick<StretchTotal, 'firstAtMs' | 'lastAtMs'>;

function rebuild(
  known: GrowingStretches,
  readings: StretchReading[],
  fromMs: number,
  rules: GrowthRules,
): { stretches: GrowingStretches; again: number | null } {
  const start = findStart(known, fromMs);
  const built = buildStretches(start.index === 0 ? readings : readings.slice(start.index), {
    ...rules,
    offsetKm: start.offsetKm,
    fromStart: start.fromStart,
  });
  const kept = known.totals.filter(
    (total) => total.firstAtMs < fromMs || known.sealed.has(nameStretch(total)),
  );
  const totals = built.totals.filter(
    (total) => total.lastAtMs >= fromMs && !known.sealed.has(nameStretch(total)),
  );
  const doubles = kept.filter((total) => has(totals, total));
  const firstMs = readings[start.index]?.atMs ?? 0;
  return {
    again: doubles.length === 0 ? null : Math.min(...doubles.map((total) => total.firstAtMs)),
    stretches: {
      ...known,
      rows: [
        // A row begins no sooner than its total: most need not be looked for.
        ...known.rows.filter((row) => row.firstAtMs < fromMs || has(kept, row)),
        ...built.rows.filter((row) => has(totals, row)),
      ],
      totals: [...kept, ...totals],
      readings,
      odometerKm: [...known.odometerKm.slice(0, start.index), ...built.odometerKm],
      steps: [
        ...known.steps.filter(({ atMs }) => atMs <= firstMs),
        ...built.steps.map(({ index, offsetKm }) => ({
          atMs: readings[start.index + index]?.atMs ?? 0,
          offsetKm,
        })),
      ],
    },
  };
}

type Numbered = Pick<StretchTotal, 'life' | 'stretch'>;

function has(totals: readonly Numbered[], { life, stretch }: Numbered): boolean {
  // The newest stand last, and are what is looked for.
  for (let i = totals.length - 1; i >= 0; i--)
    if (totals[i]?.stretch === stretch && totals[i]?.life === life) return true;
  return false;
}

/** The last reading before a moment from which the joined track can go on, with what is known there. */
function findStart(
  { readings, odometerKm, steps, offsetKm, fromStart }: GrowingStretches,
  beforeMs: number,
): { index: number; offsetKm: number; fromStart: boolean } {
  let index = 0;
  let furthest = Number.NEGATIVE_INFINITY;
  let onTrack = 0;
  for (let i = 0; i < readings.length && (readings[i]?.atMs ?? 0) < beforeMs; i++) {
    const km = odometerKm[i] ?? Number.NaN;
    if (Number.isNaN(km)) continue;
    onTrack++;
    if (km < furthest) continue;
    furthest = km;
    if (!fromStart || onTrack >= SURE_START) index = i;
  }
  if (index === 0) return { index, offsetKm, fromStart };
  const atMs = readings[index]?.atMs ?? 0;
  const step = steps.filter((one) => one.atMs <= atMs).at(-1);
  return { index, offsetKm: step?.offsetKm ?? offsetKm, fromStart: false };
}

/** Start of the stretch that the last reading before a moment belongs to; the moment itself where there is none. */
function startBefore(totals: readonly Placed[], ms: number): number {
  let last = Number.NEGATIVE_INFINITY;
  let start = ms;
  for (const { firstAtMs, lastAtMs } of totals) {
    const seen = Math.min(lastAtMs, ms - 1);
    if (firstAtMs >= ms || seen < last) continue;
    start = seen === last ? Math.min(start, firstAtMs) : firstAtMs;
    last = seen;
  }
  return start;
}

/** The latest moment not after this one that lies within no stretch. */
function clearOf(totals: readonly Placed[], ms: number): number {
  for (let at = ms; ; ) {
    let earlier = at;
    for (const { firstAtMs, lastAtMs } of totals)
      if (lastAtMs >= at && firstAtMs < earlier) earlier = firstAtMs;
    if (earlier === at) return at;
    at = earlier;
  }
}

function insert(readings: readonly StretchReading[], fresh: readonly StretchReading[]): StretchReading[] {
  const all = [...readings, ...fresh];
  const last = readings.at(-1)?.atMs ?? Number.NEGATIVE_INFINITY;
  const inOrder = fresh.every(({ atMs }, i) => atMs > (fresh[i - 1]?.atMs ?? last));
  return inOrder ? all : all.sort((a, b) => a.atMs - b.atMs);
}
