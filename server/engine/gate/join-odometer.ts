/** A step that joins two odometer tracks. */
export interface OdometerStep {
  /** index of the first reading of the new track */
  index: number;
  /** added to each odometer value from there on, km */
  offsetKm: number;
}

export interface JoinedOdometer {
  /** odometer on one continuous track, km; NaN where the reading is at fault */
  odometerKm: Float64Array;
  fault: boolean[];
  steps: OdometerStep[];
}

/** Allowed way back, km: rounding and the order of readings within a trip. */
const BACK_KM = 5;
/** Allowed speed ahead, km/h. */
const AHEAD_KMH = 200;
/** So many readings in a row on the new track, over at least this many days, make a step. */
const CONFIRM_READINGS = 12;
const CONFIRM_DAYS = 2;

/**
 * Joins a vehicle's odometer values to one continuous track.
 *
 * A reading continues the track where -5 km <= ahead <= 5 km + 200 km/h * hours since the track's last reading.
 * One that does not is at fault until 12 readings over 2 days continue each other on a new track: then they are
 * taken as one step, offset = last km of the old track - first km of the new one, so that the kilometres driven
 * in between (at most 200 km/h) are lost rather than invented. A wrong start of fewer than 12 readings is dropped for
 * the track that follows it.
 *
 * @param atMs       times, ms, rising
 * @param odometerKm instrument values, km
 * @param offsetKm   offset in force at the first reading, km
 * @param fromStart  true where the first reading given is the vehicle's first: only then can its start be wrong
 * @returns joined track, faults and steps, each as long as the input
 * Source: limits are common practice, no source. Edges: none give none; a track not yet confirmed at the end is at
 * fault. Errors: throws on unequal lengths.
 * @example joinOdometer([0, 3.6e6], [100, 160]).fault // [false, false]
 */
export function joinOdometer(
  atMs: ArrayLike<number>,
  odometerKm: ArrayLike<number>,
  offsetKm = 0,
  fromStart = true,
): JoinedOdometer {
  const n = atMs.length;
  if (odometerKm.length !== n) throw new Error('joinOdometer requires as many odometer values as times');
  const joined = new Float64Array(n).fill(Number.NaN);
  const fault: boolean[] = new Array<boolean>(n).fill(true);
  const steps: OdometerStep[] = [];
  let offset = offsetKm;
  let last = null as { atMs: number; km: number } | null;
  let onTrack: number[] = [];
  let pending: number[] = [];

  const accept = (i: number) => {
    const km = at(odometerKm, i) + offset;
    joined[i] = km;
    fault[i] = false;
    last = { atMs: at(atMs, i), km: Math.max(km, last?.km ?? km) };
    onTrack.push(i);
  };
  for (let i = 0; i < n; i++) {
    if (last === null || continues(last.km, last.atMs, at(odometerKm, i) + offset, at(atMs, i))) {
      accept(i);
      pending = [];
      continue;
    }
    const before = pending.at(-1);
    const follows =
      before !== undefined &&
      continues(at(odometerKm, before), at(atMs, before), at(odometerKm, i), at(atMs, i));
    pending = follows ? [...pending, i] : [i];
    const first = pending[0] ?? i;
    const days = (at(atMs, i) - at(atMs, first)) / 86_400_000;
    if (pending.length < CONFIRM_READINGS || days < CONFIRM_DAYS) continue;
    if (fromStart && steps.length === 0 && onTrack.length < CONFIRM_READINGS) {
      for (const wrong of onTrack) {
        joined[wrong] = Number.NaN;
        fault[wrong] = true;
      }
      onTrack = [];
      last = null;
    } else {
      offset = last.km - at(odometerKm, first);
      steps.push({ index: first, offsetKm: offset });
    }
    for (const j of pending) accept(j);
    pending = [];
  }
  return { odometerKm: joined, fault, steps };
}

function continues(fromKm: number, fromMs: number, toKm: number, toMs: number): boolean {
  const ahead = toKm - fromKm;
  return ahead >= -BACK_KM && ahead <= BACK_KM + (AHEAD_KMH * (toMs - fromMs)) / 3_600_000;
}

function at(values: ArrayLike<number>, i: number): number {
  return values[i] ?? Number.NaN;
}
