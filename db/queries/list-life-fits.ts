import { desc } from 'drizzle-orm';
import type { Database } from '#db/client.ts';
import { lifeFits } from '#db/schema/life-data.ts';

/** The newest fit of each platform's life. */
export function listLifeFits(db: Database) {
  return db
    .selectDistinctOn([lifeFits.platform])
    .from(lifeFits)
    .orderBy(lifeFits.platform, desc(lifeFits.fittedAt));
}

export type LifeFitRow = Awaited<ReturnType<typeof listLifeFits>>[number];
