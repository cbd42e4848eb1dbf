import { type Database, type RawClient, rawClient } from '#db/client.ts';
import type { StoredReading } from './read-readings.ts';

export interface ReplayReading extends StoredReading {
  vehicle: number;
  /** when it arrived, where that was late; ms since 1970 */
  arrivedMs: number | null;
}

/** Where the readings of one vehicle are to begin, ms since 1970. */
export interface ReadFrom {
  vehicle: number;
  fromMs: number;
}

/** Readings of some vehicles before a moment, in order of vehicle and time; each vehicle's from a moment of its own. */
export const readReplayReadings = (
  db: Database,
  from: readonly ReadFrom[],
  toMs: number,
): Promise<ReplayReading[]> => {
  const client = rawClient(db);
  return client<ReplayReading[]>`
    select r.vehicle, ${client.unsafe(COLUMNS)}
    from jsonb_to_recordset(${JSON.stringify(from)}::text::jsonb) as k(vehicle integer, "fromMs" bigint)
    cross join lateral (select * from readings o
      where o.vehicle = k.vehicle and o.at >= ${instant(client)} and o.at < ${new Date(toMs)}) r
    order by r.vehicle, r.at`;
};

/** The last so many readings of some vehicles before a moment of their own, in order of vehicle and time. */
export const readReplayGuards = (
  db: Database,
  from: readonly ReadFrom[],
  guard: number,
): Promise<ReplayReading[]> => {
  const client = rawClient(db);
  return client<ReplayReading[]>`
    select r.vehicle, ${client.unsafe(COLUMNS)}
    from jsonb_to_recordset(${JSON.stringify(from)}::text::jsonb) as k(vehicle integer, "fromMs" bigint)
    cross join lateral (select * from readings o
      where o.vehicle = k.vehicle and o.at < ${instant(client)} order by o.at desc limit ${guard}) r
    order by r.vehicle, r.at`;
};

const COLUMNS = `(extract(epoch from r.at) * 1000)::float8 as "atMs", r.odometer_km as "odometerKm", r.slip_rpm as "slipRpm",
  r.duty_pct as "dutyPct", r.fluid_c as "fluidC", r.load_pct as "loadPct", r.torque_pct as "torquePct",
  r.speed_kmh as "speedKmh", r.shifting, r.codes, (extract(epoch from r.arrived_at) * 1000)::float8 as "arrivedMs"`;

const instant = (client: RawClient) =>
  client.unsafe(`(timestamptz 'epoch' + k."fromMs" * interval '1 millisecond')`);
