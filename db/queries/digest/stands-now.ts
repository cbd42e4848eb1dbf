import { and, eq, inArray, max } from 'drizzle-orm';
import type { Database } from '#db/client.ts';
import { assessments } from '#db/schema/analysis.ts';
import { vehicles } from '#db/schema/fleet.ts';
import { ofPart, type SeenPart } from './seen-part.ts';

/** Where vehicles stand in the list now, by their unit numbers. */
export const listStandsNow = (db: Database, units: readonly string[]) =>
  db
    .select({
      unit: vehicles.unit,
      grade: assessments.grade,
      rank: assessments.rank,
      kmP10: assessments.kmP10,
      kmP50: assessments.kmP50,
      kmP90: assessments.kmP90,
      brief: assessments.brief,
    })
    .from(assessments)
    .innerJoin(vehicles, eq(vehicles.key, assessments.vehicle))
    .where(and(eq(vehicles.retired, false), inArray(vehicles.unit, [...units])));

/** When the newest assessment of these vehicles was made. */
export async function findAsOf(db: Database, part: SeenPart): Promise<Date | null> {
  const [row] = await db
    .select({ asOf: max(assessments.asOf) })
    .from(assessments)
    .innerJoin(vehicles, eq(vehicles.key, assessments.vehicle))
    .where(and(eq(vehicles.retired, false), ofPart(part)));
  return row?.asOf ?? null;
}
