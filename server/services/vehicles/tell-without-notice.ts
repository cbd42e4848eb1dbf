import { sql } from 'drizzle-orm';
import type { VehicleRecord } from '#db/queries/read-vehicle-record.ts';
import { assessments } from '#db/schema/analysis.ts';
import { SUDDEN_SHARE } from '#server/engine/wear/chance-of-sudden-failure.ts';
import { DEFAULT_HORIZON_KM } from '#server/services/assessment/horizon.ts';
import type { Context } from '#server/services/context.ts';
import { findLifeFit } from '#server/services/lives/read-fitted-life.ts';
import { sayLifeFit } from '#server/services/lives/say-life-fit.ts';
import { seesWholeFleet } from '#server/services/sight.ts';
import { type Units, wayWords } from '#server/services/words/length-words.ts';

/** Chance of a failure without notice, and what it rests on, in a sentence; null where no life of the platform is known. */
export async function tellWithoutNotice(
  { db, actor }: Pick<Context, 'db' | 'actor'>,
  { vehicle, platform }: VehicleRecord,
  units: Units,
): Promise<string | null> {
  if (platform === null) return null;
  const fit = await findLifeFit(db, platform.id);
  if ((fit === null || fit.basis === 'expected') && platform.lifeKm === null) return null;
  const [found] = await db
    .select({ chance: sql<number | null>`(${assessments.facts} ->> 'suddenChance')::float8` })
    .from(assessments)
    .where(sql`${assessments.vehicle} = ${vehicle.key}`);
  if (found?.chance == null) return null;
  const share = `${Math.round(100 * SUDDEN_SHARE)} %`;
  return `Failure without notice within ${wayWords(DEFAULT_HORIZON_KM, units)}: ${sayChance(found.chance)} (${share} of failures are assumed to give none). Life of the platform: ${sayLifeFit(fit, seesWholeFleet(actor))}`;
}

const sayChance = (chance: number): string =>
  chance < 0.0005 ? 'below 0.1 %' : `${(100 * chance).toFixed(1)} %`;
