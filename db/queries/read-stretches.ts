import { type Database, rawClient } from '#db/client.ts';

export interface StretchRecord {
  vehicle: number;
  life: number;
  band: number;
  /** ms since 1970 */
  firstAtMs: number;
  lastAtMs: number;
  n: number;
  weight: number;
  effective: number;
  odometerKm: number;
  slipRpm: number;
  scaleRpm: number;
  dutyPct: number;
  fluidC: number | null;
  loadPct: number | null;
  moments: number[];
}

/** Stretches of some vehicles, in order of vehicle, life, band and kilometres. */
export function readStretches(db: Database, vehicles: readonly number[]): Promise<StretchRecord[]> {
  return rawClient(db)<StretchRecord[]>`
    select vehicle, life, band, (extract(epoch from first_at) * 1000)::float8 as "firstAtMs",
      (extract(epoch from last_at) * 1000)::float8 as "lastAtMs", n, weight, effective,
      odometer_km as "odometerKm", slip_rpm as "slipRpm", scale_rpm as "scaleRpm", duty_pct as "dutyPct",
      fluid_c as "fluidC", load_pct as "loadPct", moments
    from stretches where vehicle = any(${vehicles as number[]}::integer[])
    order by vehicle, life, band, stretch`;
}
