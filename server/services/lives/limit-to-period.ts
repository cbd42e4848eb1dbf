import { type HowObserved, isAskedFor } from './observe-lives.ts';
import { placeOnTrack, type TrackPoint } from './place-on-track.ts';
import type { LeftOut, RecordedLife, VehicleRecord } from './vehicle-record.ts';

/** Moments from and up to which lives are looked at; null for no bound. */
export interface Period {
  fromMs: number | null;
  toMs: number | null;
}

export const periodReasons = {
  before: 'Ended before the period, or before the first day on which it is known where the vehicle stood',
  after: 'Fitted after the period, or the vehicle was first seen after it',
} as const;

/**
 * The records as if somebody had begun to watch at the beginning of a period and stopped at its end: vehicles are first
 * and last seen where they stood then, what ended later runs on. Where the day of a fitting or removal is on record it
 * decides, else the mileage. To be observed from the first reading where the period has a beginning.
 */
export function limitToPeriod(
  records: readonly VehicleRecord[],
  { fromMs, toMs }: Period,
  trackOf: ReadonlyMap<number, readonly TrackPoint[]>,
  recorded: HowObserved['records'],
  sources?: HowObserved['sources'],
): { records: VehicleRecord[]; leftOut: LeftOut[] } {
  const counts = { before: 0, after: 0 };
  const countOut = (when: keyof typeof counts, life: RecordedLife) => {
    if (isAskedFor(life, sources)) counts[when]++;
  };
  const limited = records.flatMap((record): VehicleRecord[] => {
    // Without readings days on record place it where its converters were changed, and nowhere since.
    if (record.nowKm === null && record.lives.some(({ removedKm }) => removedKm === null)) return [record];
    const points = [...(trackOf.get(record.vehicle) ?? []), ...datedPoints(record)];
    const fromKm = fromMs === null ? null : (placeOnTrack(points, fromMs) ?? earliestKm(points));
    const toKm = toMs === null ? record.nowKm : lastSeen(placeOnTrack(points, toMs), record.nowKm);
    if (toMs !== null && toKm === null) {
      for (const life of record.lives) countOut('after', life);
      return [];
    }
    const isBy = (atMs: number | null, km: number, limitMs: number, limitKm: number | null) =>
      atMs === null ? limitKm !== null && km <= limitKm : atMs < limitMs;
    const lives = record.lives.flatMap((life) => {
      const { fittedKm, fittedAtMs, removedKm, removedAtMs } = life;
      if (fromMs !== null && removedKm !== null && isBy(removedAtMs, removedKm, fromMs, fromKm)) {
        countOut('before', life);
        return [];
      }
      if (toMs === null) return [life];
      if (!isBy(fittedAtMs, fittedKm, toMs, toKm)) {
        countOut('after', life);
        return [];
      }
      const hasEnded = removedKm !== null && isBy(removedAtMs, removedKm, toMs, toKm);
      return [hasEnded ? life : { ...life, removedKm: null, removedAtMs: null, ended: null, mode: null }];
    });
    if (lives.length === 0 && record.lives.length > 0) return [];
    return [{ ...record, lives, firstKm: seenFrom(record.firstKm, fromKm, recorded), nowKm: toKm }];
  });
  const leftOut = (['before', 'after'] as const).flatMap((which) =>
    counts[which] === 0 ? [] : [{ reason: periodReasons[which], lives: counts[which] }],
  );
  return { records: limited, leftOut };
}

/** Days on record place a vehicle beyond its last reading too, but nobody watched it there. */
const lastSeen = (placedKm: number | null, nowKm: number | null): number | null =>
  placedKm === null || nowKm === null ? placedKm : Math.min(placedKm, nowKm);

/** Where records are complete from the fitting on, a period may begin before the first reading. */
function seenFrom(
  firstKm: number | null,
  fromKm: number | null,
  recorded: HowObserved['records'],
): number | null {
  if (fromKm === null) return firstKm;
  if (recorded === 'fitting') return fromKm;
  return firstKm === null ? null : Math.max(fromKm, firstKm);
}

const datedPoints = ({ lives, firstReadingMs, firstKm }: VehicleRecord): TrackPoint[] => [
  ...(firstReadingMs === null || firstKm === null ? [] : [{ ms: firstReadingMs, km: firstKm }]),
  ...lives.flatMap(({ fittedAtMs, fittedKm, removedAtMs, removedKm }) => [
    ...(fittedAtMs === null ? [] : [{ ms: fittedAtMs, km: fittedKm }]),
    ...(removedAtMs === null || removedKm === null ? [] : [{ ms: removedAtMs, km: removedKm }]),
  ]),
];

const earliestKm = (points: readonly TrackPoint[]): number | null =>
  points.length === 0
    ? null
    : points.reduce((least, { km }) => Math.min(least, km), Number.POSITIVE_INFINITY);
