import { asc, eq } from 'drizzle-orm';
import { type Database, rawClient } from '#db/client.ts';
import { odometerAnswers, odometerSteps } from '#db/schema/analysis.ts';
import { vehicles } from '#db/schema/fleet.ts';

/** All steps of odometers with their vehicle, by vehicle and time. */
export function listOdometerSteps(db: Database) {
  return db
    .select({
      vehicle: odometerSteps.vehicle,
      unit: vehicles.unit,
      at: odometerSteps.at,
      offsetKm: odometerSteps.offsetKm,
    })
    .from(odometerSteps)
    .innerJoin(vehicles, eq(vehicles.key, odometerSteps.vehicle))
    .where(eq(vehicles.retired, false))
    .orderBy(asc(odometerSteps.vehicle), asc(odometerSteps.at));
}

export const listOdometerAnswers = (db: Database, vehicle?: number) =>
  db
    .select()
    .from(odometerAnswers)
    .where(vehicle === undefined ? undefined : eq(odometerAnswers.vehicle, vehicle))
    .orderBy(asc(odometerAnswers.vehicle), asc(odometerAnswers.at));

/** What the instruments showed last before these steps and first with them; each is found by the key of readings. */
export function readFiguresAround(
  db: Database,
  steps: readonly { vehicle: number; at: Date }[],
): Promise<{ vehicle: number; at: Date; beforeKm: number | null; afterKm: number | null }[]> {
  return rawClient(db)`
    select s.vehicle, s.at, before.km as "beforeKm", after.km as "afterKm"
    from jsonb_to_recordset(${JSON.stringify(steps)}::text::jsonb) as s(vehicle integer, at timestamptz)
    left join lateral (
      select r.odometer_km::float8 as km from readings r
      where r.vehicle = s.vehicle and r.at < s.at and r.at > s.at - interval '400 days'
      order by r.at desc limit 1) before on true
    left join lateral (
      select r.odometer_km::float8 as km from readings r where r.vehicle = s.vehicle and r.at = s.at) after on true`;
}
