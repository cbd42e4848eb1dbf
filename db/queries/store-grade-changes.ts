import { type Database, rawClient } from '#db/client.ts';

export interface GradeChange {
  vehicle: number;
  /** null where it had none */
  from: string | null;
  to: string;
  odometerKm: number | null;
}

/** Notes new grades of vehicles, each with the first reason of its assessment, or the word of the shop that keeps the list calm. */
export async function storeGradeChanges(
  db: Database,
  at: Date,
  changes: readonly GradeChange[],
): Promise<void> {
  if (changes.length === 0) return;
  const client = rawClient(db);
  const calmReason = client`(
      select jsonb_build_object('kind', 'calm', 'outcome', p.outcome, 'untilKm', p.calm_until_km,
        'atMs', (extract(epoch from p.work_at) * 1000)::float8)
      from packets p where p.id = a.calm_packet)`;
  await client`
    insert into grade_changes (vehicle, at, from_grade, to_grade, odometer_km, why)
    select c.vehicle, ${at}, c."from", c."to", c."odometerKm", coalesce(${calmReason}, a.brief -> 'reasons' -> 0)
    from jsonb_to_recordset(${JSON.stringify(changes)}::text::jsonb)
      as c(vehicle integer, "from" text, "to" text, "odometerKm" float8)
    join assessments a on a.vehicle = c.vehicle
    on conflict do nothing`;
}
