import { and, asc, eq, gt, lte } from 'drizzle-orm';
import type { Database } from '#db/client.ts';
import { gradeChanges } from '#db/schema/analysis.ts';
import { vehicles } from '#db/schema/fleet.ts';
import { ofPart, type SeenPart } from './seen-part.ts';

export interface Span {
  /** not included itself */
  from: Date;
  to: Date;
}

/** Every change of grade in a span, vehicle by vehicle, in order of time. */
export const listGradeChanges = (db: Database, part: SeenPart, { from, to }: Span) =>
  db
    .select({
      key: vehicles.key,
      unit: vehicles.unit,
      depot: vehicles.depot,
      at: gradeChanges.at,
      before: gradeChanges.from,
      after: gradeChanges.to,
      why: gradeChanges.why,
    })
    .from(gradeChanges)
    .innerJoin(vehicles, eq(vehicles.key, gradeChanges.vehicle))
    .where(
      and(gt(gradeChanges.at, from), lte(gradeChanges.at, to), eq(vehicles.retired, false), ofPart(part)),
    )
    .orderBy(asc(vehicles.key), asc(gradeChanges.at));

export type GradeChange = Awaited<ReturnType<typeof listGradeChanges>>[number];
