import { and, asc, desc, eq, type SQL, sql } from 'drizzle-orm';
import type { Database } from '#db/client.ts';
import { prepareOnce } from '#db/prepare-once.ts';
import { odometerAnswers, odometerSteps } from '#db/schema/analysis.ts';
import { depots, lives, platforms, vehicles } from '#db/schema/fleet.ts';
import { readingSpans } from '#db/schema/intake.ts';
import { type Sight, seenBy } from './seen-vehicles.ts';

const placed = (db: Database, which: SQL | undefined) =>
  db
    .select({ vehicle: vehicles, span: readingSpans, depot: depots, platform: platforms })
    .from(vehicles)
    .leftJoin(readingSpans, eq(readingSpans.vehicle, vehicles.key))
    .leftJoin(depots, eq(depots.id, vehicles.depot))
    .leftJoin(platforms, eq(platforms.id, vehicles.platform))
    .where(which)
    .prepare('placed_vehicle');

const named = eq(vehicles.unit, sql.placeholder('unit'));
const seenByAll = prepareOnce((db) => placed(db, named));
const own = sql.placeholder('vehicle');
const ownLives = prepareOnce((db) =>
  db.select().from(lives).where(eq(lives.vehicle, own)).orderBy(asc(lives.fittedKm)).prepare('own_lives'),
);
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

/** One vehicle by its unit number, with depot, platform, lives, steps of the odometer and what was said of them; null where unknown or not to be seen. */
export async function readVehicleRecord(db: Database, unit: string, sight: Sight) {
  const seen = seenBy(sight);
  const [found] = await (seen === undefined ? seenByAll(db) : placed(db, and(named, seen))).execute({ unit });
  if (found === undefined) return null;
  const key = { vehicle: found.vehicle.key };
  const owned = await ownLives(db).execute(key);
  const steps = await ownSteps(db).execute(key);
  const answers = await ownAnswers(db).execute(key);
  const { vehicle, span, depot, platform } = found;
  const reach = {
    firstReadingAt: span?.firstAt ?? null,
    lastReadingAt: span?.lastAt ?? null,
    odometerKm: span?.odometerKm ?? null,
  };
  return { vehicle: { ...vehicle, ...reach }, depot, platform, lives: owned, steps, answers };
}

export type VehicleRecord = NonNullable<Awaited<ReturnType<typeof readVehicleRecord>>>;
