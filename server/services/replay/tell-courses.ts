import type { ReplayVehicle } from '#db/queries/read-replay-vehicles.ts';
import { buildSeries } from '#server/engine/assessment/build-series.ts';
import { listFallsBack } from '#server/engine/assessment/list-falls-back.ts';
import { findBandContext } from '#server/engine/platform/find-band-context.ts';
import type { PlatformContext, PlatformSettings } from '#server/engine/platform/platform-context.ts';
import { findLimitReached } from '#server/engine/replay/find-limit-reached.ts';
import { measureRise } from '#server/engine/replay/measure-rise.ts';
import type { LifeCourse, LifeEvent } from '#server/engine/replay/replay-model.ts';
import { REFERENCE_BAND } from '#server/engine/stretches/band-of.ts';
import type { StretchRow } from '#server/engine/stretches/stretch-row.ts';
import { placeOnTrack, type TrackPoint } from '#server/services/lives/place-on-track.ts';
import { numberLives } from '#server/services/stretches/number-lives.ts';
import { stepAt } from './follow-vehicle.ts';

/** The lives of one vehicle with hindsight, and where each was first seen, km. */
export interface VehicleCourses {
  courses: (LifeCourse & { firstKm: number; isCutShort: boolean })[];
}

/** An event that comes first on the same kilometre, for the graver word. */
const ORDER: readonly LifeEvent['what'][] = ['failed', 'reached_limit', 'confirmed'];

/**
 * How each life of a vehicle went, from its records and from all its stretches: the earliest of its failure, of slip at the
 * limit, and of a fault that a shop found.
 */
export function tellCourses(
  vehicle: ReplayVehicle,
  rows: readonly StretchRow[],
  settings: PlatformSettings,
  context: PlatformContext,
  dayEndMs: readonly number[],
  dayKm: Float64Array,
): VehicleCourses {
  const lifeAt = numberLives(vehicle.lives);
  const track = makeTrack(vehicle, rows, dayEndMs, dayKm);
  const nowKm = vehicle.odometerKm + stepAt(vehicle, Number.POSITIVE_INFINITY);
  const usual = findBandContext(context, REFERENCE_BAND);
  const { points } = buildSeries(
    rows.filter(({ band }) => band === REFERENCE_BAND),
    usual,
    settings.reference,
  );
  const cleared = listCleared(vehicle, track, lifeAt);
  const numbers = new Set([...rows.map(({ life }) => life), lifeAt(nowKm)]);
  for (let i = 0; i < vehicle.lives.length; i++) numbers.add(i + 1);
  return {
    courses: [...numbers].map((life) => {
      const record = vehicle.lives[life - 1];
      const nextKm = vehicle.lives[life]?.fittedKm ?? Number.POSITIVE_INFINITY;
      const endKm = record?.removedKm ?? nextKm;
      const seen = points.filter((point) => point.life === life);
      // Slip that fell back to healthy with no work on record: whatever came of that clutch, nobody wrote it down.
      const fallsAt = listFallsBack(seen, usual)[0];
      const own = seen.slice(0, fallsAt);
      const untilKm = (fallsAt === undefined ? null : seen[fallsAt]?.km) ?? Number.POSITIVE_INFINITY;
      const reached = findLimitReached(own, settings.limitRpm);
      const found = [
        ...endedAs(record, track),
        ...(reached === null
          ? []
          : [
              {
                what: 'reached_limit' as const,
                mode: null,
                km: reached.reached.km,
                atMs: reached.reached.atMs,
                knownMs: reached.told.atMs,
              },
            ]),
        ...confirmedIn(vehicle, life, lifeAt),
      ]
        .filter(({ km }) => km <= untilKm)
        .sort((a, b) => a.atMs - b.atMs || ORDER.indexOf(a.what) - ORDER.indexOf(b.what));
      const [event = null] = found;
      const seenKm = rows.filter((row) => row.life === life).map(({ odometerKm }) => odometerKm);
      return {
        life,
        event: event === null ? null : { ...event, mode: event.mode ?? modeOf(found) },
        lastKm: Math.min(endKm, nowKm, untilKm),
        isCutShort: fallsAt !== undefined && event === null,
        risenShare: measureRise(own, usual.baselineRpm, settings.limitRpm),
        clearedMs: cleared.filter((one) => one.life === life).map(({ ms }) => ms),
        firstKm: seenKm.reduce((least, km) => Math.min(least, km), event?.km ?? nowKm),
      };
    }),
  };
}

const modeOf = (events: readonly LifeEvent[]): string | null =>
  events.find(({ mode }) => mode !== null)?.mode ?? null;

/** A life that is on record as failed, or as taken out because of a fault that has a name. */
function endedAs(
  record: ReplayVehicle['lives'][number] | undefined,
  track: readonly TrackPoint[],
): LifeEvent[] {
  if (record === undefined) return [];
  const { ended, mode, removedKm, removedAtMs } = record;
  const isEvent = ended === 'failed' || (ended === 'preventive' && mode !== null);
  if (!isEvent) return [];
  const atMs = removedAtMs ?? (removedKm === null ? null : momentAt(track, removedKm));
  const km = removedKm ?? (removedAtMs === null ? null : placeOnTrack(track, removedAtMs));
  if (atMs === null || km === null) return [];
  return [{ what: ended === 'failed' ? 'failed' : 'confirmed', mode, km, atMs, knownMs: atMs }];
}

/** Closed jobs of a life in which a cause was found. */
function confirmedIn(vehicle: ReplayVehicle, life: number, lifeAt: (km: number) => number): LifeEvent[] {
  return vehicle.packets.flatMap((packet): LifeEvent[] => {
    const { outcome, cause, odometerKm, newLifeKm, workMs } = packet;
    if (outcome !== 'repaired' || cause === null || odometerKm === null) return [];
    const km = odometerKm + stepAt(vehicle, workMs);
    // The work that ends a life stands at the first kilometre of the next.
    const own = newLifeKm === null ? lifeAt(km) : lifeAt(newLifeKm) - 1;
    return own === life ? [{ what: 'confirmed', mode: null, km, atMs: workMs, knownMs: workMs }] : [];
  });
}

/** When shops found no fault, and in which life. */
function listCleared(vehicle: ReplayVehicle, track: readonly TrackPoint[], lifeAt: (km: number) => number) {
  return vehicle.packets.flatMap(({ outcome, odometerKm, closedMs, workMs }) => {
    if (outcome !== 'no_fault_found') return [];
    const km = odometerKm === null ? placeOnTrack(track, closedMs) : odometerKm + stepAt(vehicle, workMs);
    return km === null ? [] : [{ ms: closedMs, life: lifeAt(km) }];
  });
}

/** Where the vehicle stood: its stretches, and the ends of the days, in order. */
function makeTrack(
  { lastReadingMs, ...vehicle }: ReplayVehicle,
  rows: readonly StretchRow[],
  dayEndMs: readonly number[],
  dayKm: Float64Array,
): TrackPoint[] {
  const points = rows
    .filter(({ band }) => band === REFERENCE_BAND)
    .map((row) => ({ ms: (row.firstAtMs + row.lastAtMs) / 2, km: row.odometerKm }));
  dayEndMs.forEach((ms, i) => {
    const km = dayKm[i] ?? Number.NaN;
    if (!Number.isNaN(km)) points.push({ ms, km });
  });
  points.push({ ms: lastReadingMs, km: vehicle.odometerKm + stepAt(vehicle, lastReadingMs) });
  return points.sort((a, b) => a.ms - b.ms);
}

/** Gateways of vehicles that fail fall silent before somebody writes the mileage down, so many km at the most. */
const UNSEEN_KM = 1_000;

/**
 * The first moment at which a vehicle is known to have come to a mileage; its last one, where it was seen to come close;
 * null where it was not.
 */
function momentAt(track: readonly TrackPoint[], km: number): number | null {
  const reached = track.find((point) => point.km >= km);
  if (reached !== undefined) return reached.ms;
  const last = track.at(-1);
  return last !== undefined && km - last.km <= UNSEEN_KM ? last.ms : null;
}
