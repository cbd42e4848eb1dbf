import type { FleetLife, LeftOut, RecordedLife, VehicleRecord } from './vehicle-record.ts';

export type { FleetLife, LeftOut, RecordedLife, VehicleRecord } from './vehicle-record.ts';

export interface HowObserved {
  /** from where a life counts as watched */
  records: 'first_reading' | 'fitting';
  /** which ends count as failures */
  count: 'failed' | 'failed_and_preventive';
  /** what of used converters of which is not known what they had run before; left out: left out */
  unknownRun?: 'leave_out' | 'from_fitting' | undefined;
  /** sources of the lives that are asked for; left out or none: all */
  sources?: readonly string[] | undefined;
}

export const isAskedFor = ({ source }: { source: string }, sources: readonly string[] = []): boolean =>
  sources.length === 0 || sources.includes(source);

/**
 * What ended so far after the vehicle's last reading still counts, km: a clutch that fails often ends the readings. Own
 * choice, small beside any life.
 */
const WATCHED_ON_KM = 1_000;

/** A vehicle that has run further than this without a registered converter has one that nobody registered, km. */
const UNTOLD_KM = 1_000;

export const leftOutReasons = {
  endedBefore:
    'Ended before the first reading of the vehicle: of that time only lives that ended are on record, so they would make lives look short',
  neverRead: 'The vehicle has no reading, so from where it was watched is not known',
  runningUnread:
    'The vehicle has no reading and still runs: how far is not known, and its failures alone would make lives look short',
  usedUnknown:
    'A used converter of which nobody has said what it had run before: counted from its fitting it would make lives look short. Compare by source, or choose used units, to see these so',
  notRegistered: 'Its fitting is not registered, so its mileage is not known',
  nothingRun:
    'Ended or was last seen at the mileage at which it was fitted or first seen: nothing was watched',
} as const;

/**
 * The lives of a fleet as far as they were watched. Mileages are the converter's own: those of the vehicle, on its joined
 * track, less the one at the fitting, and what it had run before where that is on record. A life that is watched from the
 * vehicle's first reading enters where it stood then. Nobody follows a running life beyond the last reading, so an end far
 * beyond it does not count either: failures would, and the kilometres of those that did not fail would not.
 */
export function observeLives(
  records: readonly VehicleRecord[],
  how: HowObserved,
): { lives: FleetLife[]; leftOut: LeftOut[] } {
  const lives: FleetLife[] = [];
  const counts = new Map<string, number>();
  const leaveOut = (reason: string, n = 1) => counts.set(reason, (counts.get(reason) ?? 0) + n);
  for (const record of records) {
    const untold = countUntold(record);
    if (untold > 0) leaveOut(leftOutReasons.notRegistered, untold);
    for (const life of record.lives) {
      if (!isAskedFor(life, how.sources)) continue;
      const span = watchLife(record, life, how);
      if (typeof span === 'string') leaveOut(span);
      else lives.push({ ...span, ...nameLife(record, life) });
    }
  }
  return { lives, leftOut: [...counts].map(([reason, n]) => ({ reason, lives: n })) };
}

/** A life whose end on record lies beyond where the vehicle was watched: it counts as running up to there. */
export const endsUnwatched = (
  { nowKm }: Pick<VehicleRecord, 'nowKm'>,
  { removedKm }: RecordedLife,
): boolean => removedKm !== null && nowKm !== null && removedKm > nowKm + WATCHED_ON_KM;

/** A used converter whose mileage counts from its fitting for want of a better one. */
export const isRunUnknown = ({ source, runKm }: RecordedLife): boolean => source === 'used' && runKm === null;

function watchLife(
  record: VehicleRecord,
  life: RecordedLife,
  { records, count, unknownRun }: HowObserved,
): Pick<FleetLife, 'entry' | 'exit' | 'event' | 'count' | 'mode'> | string {
  const { firstKm, nowKm, lives } = record;
  const isCut = endsUnwatched(record, life);
  const endKm = isCut ? nowKm : (life.removedKm ?? nowKm);
  if (records === 'first_reading') {
    if (firstKm === null) return leftOutReasons.neverRead;
    if (life.removedKm !== null && life.removedKm <= firstKm) return leftOutReasons.endedBefore;
  }
  const runsUnread = nowKm === null && lives.some(({ removedKm }) => removedKm === null);
  if (runsUnread || endKm === null) return leftOutReasons.runningUnread;
  if (unknownRun !== 'from_fitting' && isRunUnknown(life)) return leftOutReasons.usedUnknown;
  const runKm = life.runKm ?? 0;
  const entry = runKm + (records === 'fitting' ? 0 : Math.max(0, (firstKm ?? 0) - life.fittedKm));
  const exit = runKm + endKm - life.fittedKm;
  if (exit <= entry) return leftOutReasons.nothingRun;
  const event = life.removedKm !== null && !isCut && isFailure(life, count);
  return { entry, exit, event, count: 1, ...(event && life.mode !== null ? { mode: life.mode } : {}) };
}

const isFailure = ({ ended, mode }: RecordedLife, count: HowObserved['count']): boolean =>
  ended === 'failed' || (count === 'failed_and_preventive' && ended === 'preventive' && mode !== null);

const nameLife = ({ vehicle, unit, platform, depot }: VehicleRecord, life: RecordedLife) => ({
  vehicle,
  unit,
  platform,
  depot,
  life: life.number,
  source: life.source,
  supplier: life.supplier,
});

/** Converters that must have been there though nobody registered them: before the first fitting, after a removal. */
function countUntold({ lives, firstKm, nowKm }: VehicleRecord): number {
  const first = lives[0];
  if (first === undefined) return nowKm === null ? 0 : 1;
  const before = firstKm !== null && firstKm + UNTOLD_KM < first.fittedKm ? 1 : 0;
  const after = lives.filter(({ removedKm, ended }, i) => {
    const untilKm = lives[i + 1]?.fittedKm ?? nowKm;
    return removedKm !== null && ended !== 'retired' && untilKm !== null && untilKm > removedKm + UNTOLD_KM;
  });
  return before + after.length;
}
