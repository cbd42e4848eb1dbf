import { type Database, rawClient } from '#db/client.ts';
import type { StretchRecord } from './read-stretches.ts';

export interface ReplayStretch extends StretchRecord {
  stretch: number;
}

/** Stored stretches of some vehicles, of one band or of all, in order of vehicle, life, band and kilometres. */
export const readReplayStretches = (
  db: Database,
  vehicles: readonly number[],
  band: number | null = null,
): Promise<ReplayStretch[]> => rawClient(db)<ReplayStretch[]>`
  select vehicle, life, band, stretch, (extract(epoch from first_at) * 1000)::float8 as "firstAtMs",
    (extract(epoch from last_at) * 1000)::float8 as "lastAtMs", n, weight, effective,
    odometer_km as "odometerKm", slip_rpm as "slipRpm", scale_rpm as "scaleRpm", duty_pct as "dutyPct",
    fluid_c as "fluidC", load_pct as "loadPct", moments
  from stretches where vehicle = any(${vehicles as number[]}::integer[])
    and (${band}::integer is null or band = ${band}::integer)
  order by vehicle, life, band, stretch`;

export interface ReplayTotal {
  vehicle: number;
  life: number;
  stretch: number;
  firstAtMs: number;
  lastAtMs: number;
  codes: Record<string, { first: string; last: string; n: number }>;
}

/** What these stretches held in all, as far as a replay needs it, in order of vehicle and time. */
export const readReplayTotals = (
  db: Database,
  vehicles: readonly number[],
): Promise<ReplayTotal[]> => rawClient(db)<ReplayTotal[]>`
  select vehicle, life, stretch, (extract(epoch from first_at) * 1000)::float8 as "firstAtMs",
    (extract(epoch from last_at) * 1000)::float8 as "lastAtMs", codes
  from stretch_totals where vehicle = any(${vehicles as number[]}::integer[])
  order by vehicle, first_at`;
