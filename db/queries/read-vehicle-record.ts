import { and, asc, desc, eq } from 'drizzle-orm';
import type { Database } from '#db/client.ts';
import { odometerAnswers, odometerSteps } from '#db/schema/analysis.ts';
import { depots, lives, platforms, vehicles } from '#db/schema/fleet.ts';
import { readingSpans } from '#db/schema/intake.ts';
import { type Sight, seenBy } from './seen-vehicles.ts';

/** One vehicle by its unit number, with depot, platform, lives, steps of the odometer and what was said of them; null where unknown or not to be seen. */
export async function readVehicleRecord(db: Database, unit: string, sight: Sight) {
  const [found] = await db
    .select({ vehicle: vehicles, span: readingSpans, depot: depots, platform: platforms })
    .from(vehicles)
    .leftJoin(readingSpans, eq(readingSpans.vehicle, vehicles.key))
    .leftJoin(depots, eq(depots.id, vehicles.depot))
    .leftJoin(platforms, eq(platforms.id, vehicles.platform))
    .where(and(eq(vehicles.unit, unit), seenBy(sight)));
  if (found === undefined) return null;
  const own = await db
    .select()
    .from(lives)
    .where(eq(lives.vehicle, found.vehicle.key))
    .orderBy(asc(lives.fittedKm));
  const steps = await db
    .select()
    .from(odometerSteps)
    .where(eq(odometerSteps.vehicle, found.vehicle.key))
    .orderBy(desc(odometerSteps.at));
  const answers = await db
    .select()
    .from(odometerAnswers)
    .where(eq(odometerAnswers.vehicle, found.vehicle.key))
    .orderBy(asc(odometerAnswers.at));
  const { vehicle, span, depot, platform } = found;
  const reach = {
    firstReadingAt: span?.firstAt ?? null,
    lastReadingAt: span?.lastAt ?? null,
    odometerKm: span?.odometerKm ?? null,
  };
  return { vehicle: { ...vehicle, ...reach }, depot, platform, lives: own, steps, answers };
}

export type VehicleRecord = NonNullable<Awaited<ReturnType<typeof readVehicleRecord>>>;
