import { type AssessedVehicle, CODE_DAYS } from '#db/queries/read-assessed-vehicles.ts';
import type { ReplayReading } from '#db/queries/read-replay-readings.ts';
import type { ReplayStretch, ReplayTotal } from '#db/queries/read-replay-stretches.ts';
import type { ReplayVehicle } from '#db/queries/read-replay-vehicles.ts';
import type { StretchTotal } from '#server/engine/stretches/build-stretches.ts';
import {
  beginStretches,
  type GrowthRules,
  growStretches,
  nameStretch,
  partBefore,
  trimStretches,
} from '#server/engine/stretches/grow-stretches.ts';
import { knownFromMs } from './arrival.ts';
import { DAY_MS, LATE_DAYS } from './replay-plan.ts';

/** Readings before the first that are built anew, for the gates: as when stretches are refreshed. */
export const GUARD = 24;

/** Stored stretches of one vehicle. */
export interface StoredStretches {
  rows: readonly ReplayStretch[];
  totals: readonly ReplayTotal[];
}

/** From where the readings of a vehicle are needed: what is stored of before stays as it is. */
export function readingsFromMs(totals: readonly ReplayTotal[], fromMs: number): number {
  return partBefore(totals, fromMs - LATE_DAYS * DAY_MS);
}

/**
 * One vehicle as it was known day by day: readings are fed in ahead, and each day takes those that were known by its end.
 * Stretches of which retention has dropped readings are known once they are complete.
 */
export function followVehicle(
  vehicle: ReplayVehicle,
  stored: StoredStretches,
  guard: readonly ReplayReading[],
  startMs: number,
  rules: GrowthRules,
) {
  const lostBeforeMs = vehicle.firstStoredMs ?? Number.POSITIVE_INFINITY;
  const sealed = stored.totals.filter((total) => total.firstAtMs < lostBeforeMs);
  const isBefore = ({ lastAtMs }: { lastAtMs: number }) => lastAtMs < startMs;
  const before = stored.totals.filter(isBefore);
  const names = new Set(before.map(nameStretch));
  let complete = sealed.filter((total) => !isBefore(total)).sort((a, b) => a.lastAtMs - b.lastAtMs);
  const awaited = new Set(complete.map(nameStretch));
  // What readings are to build anew is not kept beside.
  const waiting = {
    rows: complete.length === 0 ? [] : stored.rows.filter((row) => awaited.has(nameStretch(row))),
  };
  let known = beginStretches({
    rows: stored.rows.filter((row) => names.has(nameStretch(row))),
    totals: before.map(toTotal),
    guard,
    offsetKm: stepAt(vehicle, guard[0]?.atMs ?? startMs),
    fromStart: before.length === 0 && sealed.length === 0 && guard.length < GUARD,
    fixedBeforeMs: startMs,
    sealed: new Set(sealed.map(nameStretch)),
  });
  let newest: Newest | null = guard.at(-1) ?? lastOf(known.totals, stored);
  const pending: { knownMs: number; reading: ReplayReading }[] = [];

  return {
    vehicle,
    feed(readings: readonly ReplayReading[]): void {
      if (readings.length === 0) return;
      for (const reading of readings) pending.push({ knownMs: knownFromMs(reading, vehicle), reading });
      pending.sort((a, b) => a.knownMs - b.knownMs || a.reading.atMs - b.reading.atMs);
    },
    /** Takes what was known by the end of a day; answers the readings that were new, and whether stretches changed. */
    comeTo(dayEndMs: number): { fresh: readonly ReplayReading[]; isNew: boolean } {
      const later = pending.findIndex(({ knownMs }) => knownMs >= dayEndMs);
      const fresh = pending
        .splice(0, later === -1 ? pending.length : later)
        .map(({ reading }) => reading)
        .sort((a, b) => a.atMs - b.atMs);
      known = growStretches(known, fresh, rules);
      const last = fresh.at(-1);
      if (last !== undefined && last.atMs > (newest?.atMs ?? Number.NEGATIVE_INFINITY)) newest = last;
      const done = complete.filter(({ lastAtMs }) => lastAtMs < dayEndMs);
      if (done.length > 0) {
        complete = complete.slice(done.length);
        const added = new Set(done.map(nameStretch));
        known = {
          ...known,
          totals: [...known.totals, ...done.map(toTotal)],
          rows: [...known.rows, ...waiting.rows.filter((row) => added.has(nameStretch(row)))],
        };
        const end = lastOf(done.map(toTotal), waiting);
        if (end !== null && end.atMs > (newest?.atMs ?? Number.NEGATIVE_INFINITY)) newest = end;
      }
      return { fresh, isNew: fresh.length > 0 || done.length > 0 };
    },
    /** Forgets readings that no later day needs. */
    trim(dayEndMs: number): void {
      known = trimStretches(
        known,
        pending.reduce((least, { reading }) => Math.min(least, reading.atMs), dayEndMs),
      );
    },
    stretches: () => known.rows,
    lifeAt: rules.lifeAt,
    lastReadingMs: () => newest?.atMs ?? null,
    /** What was known of it at the end of a day, as the assessment reads it; null before its first reading. */
    facts(dayEndMs: number): AssessedVehicle | null {
      if (newest === null) return null;
      const offsetKm = newest.isJoined === true ? 0 : (known.steps.at(-1)?.offsetKm ?? known.offsetKm);
      const nowKm = newest.odometerKm + offsetKm;
      const life = newestLife(known.totals);
      return {
        vehicle: vehicle.vehicle,
        unit: vehicle.unit,
        lastReadingAt: new Date(newest.atMs),
        odometerKm: newest.odometerKm,
        offsetKm,
        lives: livesKnown(vehicle, nowKm, dayEndMs),
        codes: sumCodes(known.totals, life, newest.atMs),
        life,
        repair: repairKnown(vehicle, dayEndMs),
      };
    },
  };
}

/** Where a vehicle was last seen: as its instrument showed it, or on the joined track already. */
interface Newest {
  atMs: number;
  odometerKm: number;
  isJoined?: boolean;
}

export type FollowedVehicle = ReturnType<typeof followVehicle>;

/** Offset of the odometer in force at a moment, km. */
export function stepAt({ steps }: Pick<ReplayVehicle, 'steps'>, ms: number): number {
  return steps.filter(({ atMs }) => atMs <= ms).at(-1)?.offsetKm ?? 0;
}

/** The last moment that stretches tell of. */
function lastOf(totals: readonly StretchTotal[], { rows }: Pick<StoredStretches, 'rows'>): Newest | null {
  const last = totals.reduce<StretchTotal | null>(
    (newest, total) => (newest === null || total.lastAtMs > newest.lastAtMs ? total : newest),
    null,
  );
  const row = rows.find((one) => last !== null && nameStretch(one) === nameStretch(last));
  return last === null || row === undefined
    ? null
    : { atMs: last.lastAtMs, odometerKm: row.odometerKm, isJoined: true };
}

function newestLife(totals: readonly StretchTotal[]): number | null {
  let newest: StretchTotal | null = null;
  for (const total of totals) if (newest === null || total.lastAtMs > newest.lastAtMs) newest = total;
  return newest?.life ?? null;
}

/** A fitting is known from its date, else once the vehicle has come to its mileage; a removal likewise. */
function livesKnown({ lives }: ReplayVehicle, nowKm: number, dayEndMs: number): AssessedVehicle['lives'] {
  const isKnown = (atMs: number | null, km: number | null) =>
    km !== null && (atMs === null ? nowKm >= km : atMs < dayEndMs);
  const last = lives.findLastIndex((life) => isKnown(life.fittedAtMs, life.fittedKm));
  return lives.slice(0, last + 1).map(({ fittedKm, fittedAtMs, removedKm, removedAtMs, runKm }) => ({
    fittedKm,
    runKm: runKm ?? null,
    fittedAt: fittedAtMs === null ? null : new Date(fittedAtMs).toISOString(),
    removedKm: isKnown(removedAtMs, removedKm) ? removedKm : null,
  }));
}

function repairKnown(vehicle: ReplayVehicle, dayEndMs: number): AssessedVehicle['repair'] {
  const [last] = vehicle.packets
    .filter(({ outcome, newLifeKm, closedMs, odometerKm }) => {
      return outcome === 'repaired' && newLifeKm === null && odometerKm !== null && closedMs < dayEndMs;
    })
    .sort((a, b) => b.workMs - a.workMs || b.id - a.id);
  if (last === undefined) return null;
  return { km: (last.odometerKm ?? 0) + stepAt(vehicle, last.workMs), atMs: last.workMs };
}

function sumCodes(
  totals: readonly StretchTotal[],
  life: number | null,
  lastReadingMs: number,
): AssessedVehicle['codes'] {
  const seen = new Map<string, AssessedVehicle['codes'][number]>();
  for (const total of totals) {
    if (total.life !== life || total.lastAtMs <= lastReadingMs - CODE_DAYS * DAY_MS) continue;
    for (const [code, { first, last, n }] of Object.entries(total.codes)) {
      const sum = seen.get(code) ?? { code, n: 0, first, last };
      sum.n += n;
      if (first < sum.first) sum.first = first;
      if (last > sum.last) sum.last = last;
      seen.set(code, sum);
    }
  }
  return [...seen.values()].sort((a, b) => b.n - a.n || (a.code < b.code ? -1 : 1));
}

/** A stored total as far as it is needed: nothing reads its exposure here. */
function toTotal({ life, stretch, firstAtMs, lastAtMs, codes }: ReplayTotal): StretchTotal {
  return {
    life,
    stretch,
    firstAtMs,
    lastAtMs,
    codes,
    usable: 0,
    setAside: {},
    fluidBins: [],
    loadBins: null,
    heatKwSum: 0,
    heatN: 0,
    heatSpeedSum: 0,
  };
}
