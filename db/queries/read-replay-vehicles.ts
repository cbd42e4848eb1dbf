import { type Database, rawClient } from '#db/client.ts';
import type { StoredLife } from './read-life-records.ts';

/** What a replay knows of one vehicle beside its readings and stretches. Moments are ms since 1970. */
export interface ReplayVehicle {
  vehicle: number;
  unit: string;
  platform: string | null;
  depot: string | null;
  retired: boolean;
  /** when somebody said so, the last time; null where nothing is on record of it */
  retiredMs: number | null;
  firstReadingMs: number;
  lastReadingMs: number;
  /** of the newest reading, as the instrument shows it, km */
  odometerKm: number;
  /** first reading still stored; null where retention has dropped all */
  firstStoredMs: number | null;
  /** when the first delivery came, where it brought history; null where the first reading came in time */
  firstArrivedMs: number | null;
  /** in order */
  steps: { atMs: number; offsetKm: number }[];
  lives: ReplayLife[];
  /** closed ones, in order of their numbers */
  packets: ReplayPacket[];
}

/** Mileages on the joined track. */
export type ReplayLife = Omit<StoredLife, 'runKm'> & { runKm?: number | null };

export interface ReplayPacket {
  id: number;
  openedMs: number;
  closedMs: number;
  workMs: number;
  /** as the instrument showed it, km */
  odometerKm: number | null;
  outcome: 'repaired' | 'no_fault_found' | 'declined' | null;
  cause: string | null;
  newLifeKm: number | null;
  calmUntilKm: number | null;
  calmSlipRpm: number | null;
  /** trouble codes of its flag that name the clutch, with their last sight */
  codes: { code: string; lastMs: number }[];
}

/** Vehicles that have readings, by key. */
export const readReplayVehicles = (
  db: Database,
  vehicles: readonly number[],
): Promise<ReplayVehicle[]> => rawClient(db)<ReplayVehicle[]>`
  select v.key as vehicle, v.unit, v.platform, v.depot, v.retired,
    case when v.retired then (select (extract(epoch from max(c.at)) * 1000)::float8 from changes c
      where c.subject = 'vehicle' and c.subject_id = v.unit and c.before->>'retired' = 'false'
        and c.after->>'retired' = 'true') end as "retiredMs",
    (extract(epoch from span.first_at) * 1000)::float8 as "firstReadingMs",
    (extract(epoch from span.last_at) * 1000)::float8 as "lastReadingMs", span.odometer_km as "odometerKm",
    (extract(epoch from f.at) * 1000)::float8 as "firstStoredMs",
    case when f.arrived_at is not null then (select (extract(epoch from min(coalesce(r.arrived_at, r.at))) * 1000)::float8
      from readings r where r.vehicle = v.key and r.at < f.arrived_at) end as "firstArrivedMs",
    coalesce((select jsonb_agg(jsonb_build_object('atMs', (extract(epoch from s.at) * 1000)::float8,
      'offsetKm', s.offset_km) order by s.at) from odometer_steps s where s.vehicle = v.key), '[]') as steps,
    coalesce((select jsonb_agg(jsonb_build_object('fittedKm', l.fitted_km,
      'fittedAtMs', (extract(epoch from l.fitted_at) * 1000)::float8, 'removedKm', l.removed_km,
      'removedAtMs', (extract(epoch from l.removed_at) * 1000)::float8, 'ended', l.ended, 'mode', l.mode,
      'source', l.source, 'supplier', l.supplier, 'runKm', l.run_km) order by l.fitted_km)
      from lives l where l.vehicle = v.key), '[]') as lives,
    coalesce((select jsonb_agg(jsonb_build_object('id', p.id,
      'openedMs', (extract(epoch from p.opened_at) * 1000)::float8,
      'closedMs', (extract(epoch from p.closed_at) * 1000)::float8,
      'workMs', (extract(epoch from coalesce(p.work_at, p.closed_at)) * 1000)::float8, 'odometerKm', p.odometer_km,
      'outcome', p.outcome, 'cause', p.cause, 'newLifeKm', p.new_life_km, 'calmUntilKm', p.calm_until_km,
      'calmSlipRpm', p.calm_slip_rpm, 'codes', coalesce((select jsonb_agg(jsonb_build_object('code', c->>'code',
        'lastMs', (extract(epoch from (c->>'last_at')::timestamptz) * 1000)::float8))
        from jsonb_array_elements(p.flag->'metric'->'codes') c where (c->>'names_clutch')::boolean), '[]'))
      order by p.id) from packets p where p.vehicle = v.key and p.state = 'closed'), '[]') as packets
  from vehicles v join reading_spans span on span.vehicle = v.key
  left join lateral (select at, arrived_at from readings r where r.vehicle = v.key order by r.at limit 1) f on true
  where v.key = any(${vehicles as number[]}::integer[])
  order by v.key`;
