import { type Database, rawClient } from '#db/client.ts';
import { offsetKm } from './joined-km.ts';

/** Where a vehicle stood, on its joined track. */
export interface StoredTrackPoint {
  vehicle: number;
  ms: number;
  km: number;
}

/**
 * What places vehicles at some moments: the middles of the stretches just before and after each, and what the newest
 * reading showed. Stretches are this long, km.
 */
export function readLifeTracks(
  db: Database,
  vehicles: readonly number[],
  moments: readonly Date[],
  stretchKm: number,
): Promise<StoredTrackPoint[]> {
  const client = rawClient(db);
  return client<StoredTrackPoint[]>`
    with middles as materialized (
      select t.vehicle, (t.stretch + 0.5) * ${stretchKm}::float8 as km,
        t.first_at + (t.last_at - t.first_at) / 2 as at
      from stretch_totals t where t.vehicle = any(${vehicles as number[]}::integer[])
    ), moments as (
      select to_timestamp(ms / 1000) as moment from unnest(${moments.map((one) => one.getTime())}::float8[]) as ms)
    select vehicle, (extract(epoch from at) * 1000)::float8 as ms, km::float8 as km from (
      (select distinct on (vehicle, moment) vehicle, at, km from middles, moments where at <= moment
        order by vehicle, moment, at desc)
      union all
      (select distinct on (vehicle, moment) vehicle, at, km from middles, moments where at > moment
        order by vehicle, moment, at)
      union all
      select r.vehicle, r.last_at, r.odometer_km + ${client.unsafe(offsetKm('r.vehicle'))}
      from reading_spans r where r.vehicle = any(${vehicles as number[]}::integer[])
    ) points`;
}
