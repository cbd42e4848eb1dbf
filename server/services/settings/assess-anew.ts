import { asc, eq } from 'drizzle-orm';
import { readStretches } from '#db/queries/read-stretches.ts';
import { type platforms, vehicles } from '#db/schema/fleet.ts';
import { learnPlatform } from '#server/engine/platform/learn-platform.ts';
import { MOST_LEARNED, takeEvenly } from '#server/engine/platform/take-evenly.ts';
import { findAssessments } from '#server/services/assessment/assess-vehicles.ts';
import { readContext } from '#server/services/assessment/learn-platform.ts';
import type { StoredFacts } from '#server/services/assessment/stored-assessment.ts';
import type { Context } from '#server/services/context.ts';
import { fitLife, readFleetLives } from '#server/services/lives/learn-life.ts';
import { countedLife, readFittedLife } from '#server/services/lives/read-fitted-life.ts';
import { toEngineSettings } from '#server/services/stretches/engine-settings.ts';

/** What follows a preview as it is made. */
export interface PreviewWatch {
  /** asked between vehicles; true ends the work */
  stopped: () => boolean;
  progress: (done: number, of: number) => void;
}

/** Vehicles between two looks at whether anybody still waits. */
const BATCH = 25;

/**
 * What the assessment would find of every vehicle of a platform with other settings, from the stored stretches. The same
 * steps as `bringUpToDate` takes once they are saved; nothing is stored. Null where the work was ended.
 */
export async function assessAnew(
  ctx: Context,
  changed: typeof platforms.$inferSelect,
  learns: boolean,
  { stopped, progress }: PreviewWatch,
): Promise<Map<number, StoredFacts> | null> {
  const keys = await keysOf(ctx, changed.id);
  progress(0, keys.length);
  const found = new Map<number, StoredFacts>();
  const context = learns
    ? learnPlatform(
        (await readStretches(ctx.db, takeEvenly(keys, MOST_LEARNED))).all(),
        toEngineSettings(changed),
      )
    : await readContext(ctx, changed.id);
  const fitted = learns
    ? countedLife(fitLife(changed, await readFleetLives(ctx)))
    : await readFittedLife(ctx.db, changed.id);
  for (let from = 0; from < keys.length; from += BATCH) {
    if (stopped()) return null;
    const batch = keys.slice(from, from + BATCH);
    const stretches = await readStretches(ctx.db, batch);
    const { rows } = await findAssessments(ctx, batch, changed, context, stretches, fitted);
    for (const { vehicle, facts } of rows) found.set(vehicle, facts as StoredFacts);
    progress(from + batch.length, keys.length);
  }
  return found;
}

async function keysOf({ db }: Context, platform: string): Promise<number[]> {
  const rows = await db
    .select({ key: vehicles.key })
    .from(vehicles)
    .where(eq(vehicles.platform, platform))
    .orderBy(asc(vehicles.key));
  return rows.map(({ key }) => key);
}
