import { and, desc, eq, lt, sql } from 'drizzle-orm';
import type { Database } from '#db/client.ts';
import { type UpkeepStep, upkeepRuns } from '#db/schema/upkeep.ts';

export type UpkeepRun = typeof upkeepRuns.$inferSelect;

/** See MIGRATION_LOCK for the number. */
const UPKEEP_LOCK = 730_511_520;
const KEPT_MS = 400 * 86_400_000;

/**
 * Does `work` while no other process does the upkeep of this database, and writes down that it runs and what came of it.
 * Null where another process does it. The lock goes with the connection: whoever finds it free knows that nobody works.
 */
export async function recordUpkeep(
  db: Database,
  now: () => Date,
  work: () => Promise<{ state: 'done' | 'failed' | 'stopped'; steps: UpkeepStep[] }>,
): Promise<UpkeepRun | null> {
  return db.transaction(async (transaction) => {
    await transaction.execute(sql`set local idle_in_transaction_session_timeout = 0`);
    const [lock] = await transaction.execute<{ mine: boolean }>(
      // Without a parameter: what has one leaves a snapshot open, and the exchange of an index would wait for us.
      sql`select pg_try_advisory_xact_lock(${sql.raw(String(UPKEEP_LOCK))}) as mine`,
    );
    if (lock?.mine !== true) return null;
    await db
      .update(upkeepRuns)
      .set({ state: 'stopped', endedAt: now() })
      .where(eq(upkeepRuns.state, 'running'));
    const [begun] = await db
      .insert(upkeepRuns)
      .values({ startedAt: now(), state: 'running', steps: [] })
      .returning({ id: upkeepRuns.id });
    const outcome = await work();
    const [run] = await db
      .update(upkeepRuns)
      .set({ ...outcome, endedAt: now() })
      .where(eq(upkeepRuns.id, begun?.id ?? 0))
      .returning();
    return run ?? null;
  });
}

/** The newest first. */
export const listUpkeepRuns = (db: Database, limit: number): Promise<UpkeepRun[]> =>
  db.select().from(upkeepRuns).orderBy(desc(upkeepRuns.startedAt), desc(upkeepRuns.id)).limit(limit);

/** How many failed since the last that was done, and when that one ended. */
export async function readUpkeepState(db: Database): Promise<{ failures: number; doneAt: Date | null }> {
  const [row] = await db.execute<{ failures: number; done_at: Date | null }>(sql`
    select (select count(*) from upkeep_runs where state = 'failed' and id > coalesce(
        (select max(id) from upkeep_runs where state = 'done'), 0)) as failures,
      (select max(ended_at) from upkeep_runs where state = 'done') as done_at`);
  return { failures: row?.failures ?? 0, doneAt: row?.done_at ?? null };
}

/** Answers how many went. */
export async function forgetUpkeepRuns(db: Database, now: Date): Promise<number> {
  const gone = await db
    .delete(upkeepRuns)
    .where(
      and(lt(upkeepRuns.startedAt, new Date(now.getTime() - KEPT_MS)), sql`${upkeepRuns.state} <> 'running'`),
    )
    .returning({ id: upkeepRuns.id });
  return gone.length;
}
