import { type Database, rawClient } from '#db/client.ts';
import { offsetKm } from './joined-km.ts';

export interface AssessedVehicle {
  vehicle: number;
  unit: string;
  lastReadingAt: Date | null;
  odometerKm: number | null;
  offsetKm: number;
  lives: {
    fittedKm: number;
    removedKm: number | null;
    fittedAt: string | null;
    /** before it was fitted */
    runKm?: number | null;
  }[];
  /** trouble codes seen in the newest kilometres of the current life, as they came; RFC 3339, UTC */
  codes: { code: string; n: number; first: string; last: string }[];
  /** life and last kilometre of the newest stretch */
  life: number | null;
  /** the last repair after which the converter stayed, on the joined track; null where there was none */
  repair: { km: number; atMs: number } | null;
}

/** Trouble codes count while seen within so many days before the last reading. */
export const CODE_DAYS = 90;

/**
 * What the assessment of vehicles with readings needs beside their stretches. All goes by the vehicle of the spans: only so it
 * stays on one machine where tables are split by vehicle.
 */
export function readAssessedVehicles(db: Database, vehicles: readonly number[]): Promise<AssessedVehicle[]> {
  const client = rawClient(db);
  return client<AssessedVehicle[]>`
    select v.key as vehicle, v.unit, r.last_at as "lastReadingAt", r.odometer_km as "odometerKm",
      ${client.unsafe(offsetKm('r.vehicle'))} as "offsetKm",
      coalesce((select jsonb_agg(jsonb_build_object('fittedKm', l.fitted_km, 'removedKm', l.removed_km,
        'fittedAt', l.fitted_at, 'runKm', l.run_km) order by l.fitted_km) from lives l where l.vehicle = r.vehicle), '[]') as lives,
      newest.life,
      (select jsonb_build_object('km', p.odometer_km + ${client.unsafe(offsetKm('r.vehicle', 'p.work_at'))},
          'atMs', (extract(epoch from p.work_at) * 1000)::float8)
        from packets p where p.vehicle = r.vehicle and p.outcome = 'repaired' and p.new_life_km is null
        order by p.work_at desc, p.id desc limit 1) as repair,
      coalesce((select jsonb_agg(jsonb_build_object('code', code, 'n', n, 'first', first, 'last', last)
        order by n desc, code) from (
        select c.key as code, sum((c.value->>'n')::integer) as n, min(c.value->>'first') as first,
          max(c.value->>'last') as last
        from stretch_totals t, jsonb_each(t.codes) c
        where t.vehicle = r.vehicle and t.last_at > r.last_at - make_interval(days => ${CODE_DAYS})
          and t.life = newest.life and t.codes <> '{}'
        group by c.key) seen), '[]') as codes
    from reading_spans r join vehicles v on v.key = r.vehicle
      left join lateral (select life from stretch_totals n where n.vehicle = r.vehicle order by last_at desc limit 1)
        newest on true
    where r.vehicle = any(${vehicles as number[]}::integer[])
    order by r.vehicle`;
}
