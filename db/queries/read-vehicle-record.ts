import { and, asc, desc, eq, type SQL, sql } from 'drizzle-orm';
import type { Database } from '#db/client.ts';
import { prepareOnce } from '#db/prepare-once.ts';
import { odometerAnswers, odometerSteps } from '#db/schema/analysis.ts';
import { depots, lives, platforms, vehicles } from '#db/schema/fleet.ts';
import { readingSpans } from '#db/schema/intake.ts';
import { type Sight, seenBy } from './seen-vehicles.ts';

const placed = (db: Database, which: SQL | undefined) =>
  db
    .select({ vehicle: vehicles, span: readingSpans, depot: depots, platform: platforms, life: lives })
    .from(vehicles)
    .leftJoin(readingSpans, eq(readingSpans.vehicle, vehicles.key))
    .leftJoin(depots, eq(depots.id, vehicles.depot))
    .leftJoin(platforms, eq(platforms.id, vehicles.platform))
    .leftJoin(lives, eq(lives.vehicle, vehicles.key))
    .where(which)
    .orderBy(asc(lives.fittedKm))
    .prepare('placed_vehicle');

const named = eq(vehicles.unit, sql.placeholder('unit'));
const seenByAll = prepareOnce((db) => placed(db, named));
const own = sql.placeholder('vehicle');
const ownSteps = prepareOnce((db) =>
  db
    .select()
    .from(odometerSteps)
    .where(eq(odometerSteps.vehicle, own))
    .orderBy(desc(odometerSteps.at))
    .prepare('own_steps'),
);
const ownAnswers = prepareOnce((db) =>
  db
    .select()
    .from(odometerAnswers)
    .where(eq(odometerAnswers.vehicle, own))
    .orderBy(asc(odometerAnswers.at))
    .prepare('own_answers'),
);

/** One vehicle by its unit number, with depot, platform and lives; null where unknown or not to be seen. */
export async function readPlacedVehicle(db: Database, unit: string, sight: Sight) {
  const seen = seenBy(sight);
  const rows = await (seen === undefined ? seenByAll(db) : placed(db, and(named, seen))).execute({ unit });
  const [found] = rows;
  if (found === undefined) return null;
  const { vehicle, span, depot, platform } = found;
  const reach = {
    firstReadingAt: span?.firstAt ?? null,
    lastReadingAt: span?.lastAt ?? null,
    odometerKm: span?.odometerKm ?? null,
  };
  const owned = rows.flatMap(({ life }) => life ?? []);
  return { vehicle: { ...vehicle, ...reach }, depot, platform, lives: owned };
}

export type PlacedVehicle = NonNullable<Awaited<ReturnType<typeof readPlacedVehicle>>>;

/** The same with steps of the odometer and what was said of them. */
export async function readVehicleRecord(db: Database, unit: string, sight: Sight) {
  const found = await readPlacedVehicle(db, unit, sight);
  if (found === null) return null;
  const key = { vehicle: found.vehicle.key };
  const [steps, answers] = await Promise.all([ownSteps(db).execute(key), ownAnswers(db).execute(key)]);
  return { ...found, steps, answers };
}

export type VehicleRecord = NonNullable<Awaited<ReturnType<typeof readVehicleRecord>>>;
