import { asc, eq, isNotNull } from 'drizzle-orm';
import { type Database, rawClient } from '#db/client.ts';
import { platforms, vehicles } from '#db/schema/fleet.ts';
import { touchedVehicles } from '#db/schema/intake.ts';

/** A vehicle with readings newer than its stretches, the span of time that they touch, and its platform. */
export interface TouchedVehicle {
  span: { fromAt: Date; toAt: Date };
  vehicle: typeof vehicles.$inferSelect;
  platform: typeof platforms.$inferSelect | null;
}

/**
 * Takes every touched vehicle in hand, those with it that an assessment took and never finished, in order of their
 * keys. What is delivered from now on touches them anew. One caller at a time.
 */
export async function takeTouchedVehicles(db: Database): Promise<TouchedVehicle[]> {
  await rawClient(db)`
    with noted as (
      select vehicle from touched_vehicles where from_at is not null order by vehicle for update)
    update touched_vehicles t set
      taken_from_at = least(t.taken_from_at, t.from_at),
      taken_to_at = greatest(t.taken_to_at, t.to_at),
      from_at = null,
      to_at = null
    from noted where t.vehicle = noted.vehicle`;
  const rows = await db
    .select({ touched: touchedVehicles, vehicle: vehicles, platform: platforms })
    .from(touchedVehicles)
    .innerJoin(vehicles, eq(vehicles.key, touchedVehicles.vehicle))
    .leftJoin(platforms, eq(platforms.id, vehicles.platform))
    .where(isNotNull(touchedVehicles.takenFromAt))
    .orderBy(asc(touchedVehicles.vehicle));
  return rows.flatMap(({ touched: { takenFromAt, takenToAt }, vehicle, platform }) =>
    takenFromAt === null || takenToAt === null
      ? []
      : [{ span: { fromAt: takenFromAt, toAt: takenToAt }, vehicle, platform }],
  );
}

/** Ends the work on what was taken: what was touched again meanwhile stays noted, with the new span alone. */
export async function forgetTakenVehicles(db: Database): Promise<void> {
  await db.transaction(async (transaction) => {
    const client = rawClient(transaction);
    await client`
      with taken as (
        select vehicle from touched_vehicles where taken_from_at is not null order by vehicle for update)
      update touched_vehicles t set taken_from_at = null, taken_to_at = null
      from taken where t.vehicle = taken.vehicle`;
    await client`delete from touched_vehicles where from_at is null and taken_from_at is null`;
  });
}
