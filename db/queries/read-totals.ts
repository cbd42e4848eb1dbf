import { asc, eq } from 'drizzle-orm';
import type { Database } from '#db/client.ts';
import { stretchTotals } from '#db/schema/analysis.ts';

/** What each stretch of one vehicle held in all, in order of time. */
export function readTotals(db: Database, vehicle: number) {
  return db
    .select()
    .from(stretchTotals)
    .where(eq(stretchTotals.vehicle, vehicle))
    .orderBy(asc(stretchTotals.firstAt), asc(stretchTotals.stretch));
}

export type StretchTotalRow = Awaited<ReturnType<typeof readTotals>>[number];
