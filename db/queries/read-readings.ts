import { type Database, rawClient } from '#db/client.ts';

export interface StoredReading {
  /** ms since 1970 */
  atMs: number;
  odometerKm: number;
  slipRpm: number;
  dutyPct: number;
  fluidC: number | null;
  loadPct: number | null;
  torquePct: number | null;
  speedKmh: number | null;
  shifting: boolean | null;
  codes: string[] | null;
}

/** Readings of one vehicle in a span of time, with so many more on either side, in order of time. */
export function readReadings(db: Database, vehicle: number, fromAt: Date, toAt: Date, guard: number) {
  return rawClient(db)<StoredReading[]>`
    select (extract(epoch from at) * 1000)::float8 as "atMs", odometer_km as "odometerKm", slip_rpm as "slipRpm", duty_pct as "dutyPct", fluid_c as "fluidC",
      load_pct as "loadPct", torque_pct as "torquePct", speed_kmh as "speedKmh", shifting, codes
    from readings
    where vehicle = ${vehicle}
      and at >= coalesce((select min(at) from (select at from readings
        where vehicle = ${vehicle} and at < ${fromAt} order by at desc limit ${guard}) b), ${fromAt})
      and at <= coalesce((select max(at) from (select at from readings
        where vehicle = ${vehicle} and at > ${toAt} order by at limit ${guard}) a), ${toAt})
    order by at`;
}
