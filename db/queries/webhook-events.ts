import { and, eq, inArray, isNull } from 'drizzle-orm';
import { type Database, rawClient } from '#db/client.ts';
import { assessments } from '#db/schema/analysis.ts';
import { vehicles } from '#db/schema/fleet.ts';
import { webhookPosts, webhooks } from '#db/schema/notices.ts';

/** Webhooks that are told of changes; those of paused ones wait. */
export const listTold = (db: Database) =>
  db.select({ id: webhooks.id, grades: webhooks.grades }).from(webhooks).where(isNull(webhooks.endedAt));

/** Whether the fleet was first ranked less than a day before. */
export async function isFirstRanking(db: Database, at: Date): Promise<boolean> {
  const [row] = await rawClient(db)<{ old: boolean }[]>`
    select exists (select from grade_changes where at <= ${at}::timestamptz - interval '1 day') as old`;
  return row?.old !== true;
}

/** What is told of a vehicle beside its grade. */
export const readAnnounced = (db: Database, keys: readonly number[]) =>
  db
    .select({
      vehicle: assessments.vehicle,
      unit: vehicles.unit,
      depot: vehicles.depot,
      platform: vehicles.platform,
      brief: assessments.brief,
      chance: assessments.chance,
      kmP10: assessments.kmP10,
      kmP50: assessments.kmP50,
      kmP90: assessments.kmP90,
    })
    .from(assessments)
    .innerJoin(vehicles, eq(vehicles.key, assessments.vehicle))
    .where(and(inArray(assessments.vehicle, [...keys])));

type NewPost = Pick<
  typeof webhookPosts.$inferInsert,
  'id' | 'webhook' | 'vehicle' | 'at' | 'body' | 'nextAt'
>;

/** Rows of one statement: PostgreSQL takes 65,535 parameters. */
const ROWS = 5000;

export async function insertPosts(db: Database, posts: readonly NewPost[]): Promise<void> {
  for (let i = 0; i < posts.length; i += ROWS)
    await db
      .insert(webhookPosts)
      .values(posts.slice(i, i + ROWS))
      .onConflictDoNothing();
}
