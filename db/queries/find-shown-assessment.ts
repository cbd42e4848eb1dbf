import { asc, eq, sql } from 'drizzle-orm';
import type { Database } from '#db/client.ts';
import { prepareOnce } from '#db/prepare-once.ts';
import { assessments, fleetEvents } from '#db/schema/analysis.ts';

const ofVehicle = prepareOnce((db) =>
  db
    .select({
      life: assessments.life,
      onsetKm: assessments.onsetKm,
      kmP10: assessments.kmP10,
      kmP50: assessments.kmP50,
      kmP90: assessments.kmP90,
      drift: assessments.driftRpmPerKm,
      driftLow: assessments.driftLow,
      driftHigh: assessments.driftHigh,
      brief: assessments.brief,
      detail: assessments.detail,
    })
    .from(assessments)
    .where(eq(assessments.vehicle, sql.placeholder('vehicle')))
    .prepare('assessment_of_vehicle'),
);

const ofPlatform = prepareOnce((db) =>
  db
    .select()
    .from(fleetEvents)
    .where(eq(fleetEvents.platform, sql.placeholder('platform')))
    .orderBy(asc(fleetEvents.at))
    .prepare('events_of_platform'),
);

/** Fit and forecast of one vehicle, as its own screen shows them; null before its first assessment. */
export async function findShownAssessment(db: Database, vehicle: number) {
  const [row] = await ofVehicle(db).execute({ vehicle });
  return row ?? null;
}

/** Steps of the common movement of a platform, in order. */
export const listFleetEvents = (db: Database, platform: string) => ofPlatform(db).execute({ platform });
