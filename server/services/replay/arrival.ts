import type { ReplayReading } from '#db/queries/read-replay-readings.ts';
import type { ReplayVehicle } from '#db/queries/read-replay-vehicles.ts';
import { DAY_MS, LATE_DAYS } from './replay-plan.ts';

/** Readings that arrive within so many days of a vehicle's first one were loaded with it, where that was late. */
const LOADING_DAYS = 2;

export type Arrival = 'in_time' | 'late' | 'loaded';

/**
 * How a reading came. What a vehicle's first delivery brought of its past, and what is over 30 days old, is history that was
 * loaded, and counts as known from its own moment; what else is late counts from when it arrived.
 */
export function tellArrival(
  { atMs, arrivedMs }: Pick<ReplayReading, 'atMs' | 'arrivedMs'>,
  { firstArrivedMs }: Pick<ReplayVehicle, 'firstArrivedMs'>,
): Arrival {
  if (arrivedMs === null) return 'in_time';
  const isFirst = firstArrivedMs !== null && arrivedMs <= firstArrivedMs + LOADING_DAYS * DAY_MS;
  return isFirst || arrivedMs - atMs > LATE_DAYS * DAY_MS ? 'loaded' : 'late';
}

/** From when on a reading is known, ms since 1970. */
export const knownFromMs = (
  reading: Pick<ReplayReading, 'atMs' | 'arrivedMs'>,
  vehicle: Pick<ReplayVehicle, 'firstArrivedMs'>,
): number => (tellArrival(reading, vehicle) === 'late' ? (reading.arrivedMs ?? reading.atMs) : reading.atMs);
