import { desc, eq } from 'drizzle-orm';
import type { Database } from '#db/client.ts';
import type { LifeFitRow } from '#db/queries/list-life-fits.ts';
import { lifeFits } from '#db/schema/life-data.ts';
import type { LifeBasis, LifeHazard } from '#server/engine/life/platform-life.ts';

/** The life of a platform that was fitted last; null where none was, or where the expected life of the settings counts. */
export async function readFittedLife(db: Database, platform: string | null): Promise<LifeHazard | null> {
  return countedLife(await findLifeFit(db, platform));
}

/** A fit, where it counts before the settings. */
export const countedLife = (fit: (LifeHazard & { basis: LifeBasis }) | null): LifeHazard | null =>
  fit === null || fit.basis === 'expected' ? null : { shape: fit.shape, scaleKm: fit.scaleKm };

export async function findLifeFit(db: Database, platform: string | null): Promise<LifeFitRow | null> {
  if (platform === null) return null;
  const [newest] = await db
    .select()
    .from(lifeFits)
    .where(eq(lifeFits.platform, platform))
    .orderBy(desc(lifeFits.fittedAt))
    .limit(1);
  return newest ?? null;
}
