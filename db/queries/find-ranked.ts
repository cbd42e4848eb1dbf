import { and, asc, eq, type SQL, sql } from 'drizzle-orm';
import type { Database } from '#db/client.ts';
import { assessments } from '#db/schema/analysis.ts';
import { platforms, vehicles } from '#db/schema/fleet.ts';
import { type Sight, seenBy } from './seen-vehicles.ts';

/** What the place of one vehicle in the list is told from. */
const columns = {
  key: vehicles.key,
  unit: vehicles.unit,
  rank: assessments.rank,
  grade: assessments.grade,
  kmP50: assessments.kmP50,
  facts: assessments.facts,
  isCalm: sql<boolean>`${assessments.calmPacket} is not null`,
  platform: vehicles.platform,
  platformName: platforms.name,
};

const ranked = (db: Database, where: SQL | undefined) =>
  db
    .select(columns)
    .from(assessments)
    .innerJoin(vehicles, eq(vehicles.key, assessments.vehicle))
    .leftJoin(platforms, eq(platforms.id, vehicles.platform))
    .where(and(eq(vehicles.retired, false), where));

/** A vehicle of the list by its unit number, where one sees it. */
export async function findRanked(db: Database, unit: string, sight: Sight) {
  const [row] = await ranked(db, and(seenBy(sight), eq(vehicles.unit, unit)));
  return row ?? null;
}

export type Ranked = NonNullable<Awaited<ReturnType<typeof findRanked>>>;

/** The next one down the list that one sees. */
export async function findRankedBelow(
  db: Database,
  { rank, key }: Pick<Ranked, 'rank' | 'key'>,
  sight: Sight,
): Promise<Ranked | null> {
  const below = sql`(${assessments.rank}, ${assessments.vehicle}) > (${rank}::integer, ${key}::integer)`;
  const [row] = await ranked(db, and(seenBy(sight), below))
    .orderBy(asc(assessments.rank), asc(assessments.vehicle))
    .limit(1);
  return row ?? null;
}
