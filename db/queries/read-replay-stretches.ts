import { type Database, rawClient } from '#db/client.ts';
import type { StretchRecord } from './stored-stretches.ts';

export interface ReplayStretch extends StretchRecord {
  stretch: number;
}

/** Until when the stretches of one vehicle are wanted, ms since 1970; null for all. */
export interface BegunBefore {
  vehicle: number;
  beforeMs: number | null;
}

/** Stored stretches that had begun by a moment, of all bands, in order of vehicle, life, band and kilometres. */
export const readStretchesBegun = (
  db: Database,
  vehicles: readonly BegunBefore[],
): Promise<ReplayStretch[]> => {
  const client = rawClient(db);
  return client<ReplayStretch[]>`
    select ${client.unsafe(COLUMNS)}
    from jsonb_to_recordset(${JSON.stringify(vehicles)}::text::jsonb) as k(vehicle integer, "beforeMs" float8)
    join stretch_totals t on t.vehicle = k.vehicle
      and (k."beforeMs" is null or (extract(epoch from t.first_at) * 1000)::float8 < k."beforeMs")
    join stretches s on s.vehicle = t.vehicle and s.life = t.life and s.stretch = t.stretch
    order by s.vehicle, s.life, s.band, s.stretch`;
};

/** Stored stretches of some vehicles in one band, in the same order. */
export const readBandStretches = (
  db: Database,
  vehicles: readonly number[],
  band: number,
): Promise<ReplayStretch[]> => {
  const client = rawClient(db);
  return client<ReplayStretch[]>`
    select ${client.unsafe(COLUMNS)}
    from stretches s where s.vehicle = any(${vehicles as number[]}::integer[]) and s.band = ${band}::integer
    order by s.vehicle, s.life, s.stretch`;
};

const COLUMNS = `s.vehicle, s.life, s.band, s.stretch, (extract(epoch from s.first_at) * 1000)::float8 as "firstAtMs",
  (extract(epoch from s.last_at) * 1000)::float8 as "lastAtMs", s.n, s.weight, s.effective,
  s.odometer_km as "odometerKm", s.slip_rpm as "slipRpm", s.scale_rpm as "scaleRpm", s.duty_pct as "dutyPct",
  s.fluid_c as "fluidC", s.load_pct as "loadPct", s.moments`;

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
