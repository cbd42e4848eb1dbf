import { setTimeout as sleep } from 'node:timers/promises';
import { sql } from 'drizzle-orm';
import type { Database } from './client.ts';

const LOOK_MS = 200;

/**
 * Does `work` while no other process of this database holds `lock`; see MIGRATION_LOCK for the number. Null where it was
 * asked to stop while it waited. Takes a connection of its own meanwhile, and the server frees the lock when this process
 * dies.
 */
export async function holdLock<T>(
  db: Database,
  lock: number,
  stopped: () => boolean,
  work: () => Promise<T>,
): Promise<T | null> {
  return db.transaction(async (transaction) => {
    await transaction.execute(sql`set local idle_in_transaction_session_timeout = 0`);
    for (;;) {
      if (stopped()) return null;
      const [row] = await transaction.execute<{ mine: boolean }>(
        // Without a parameter: what has one leaves a snapshot open, which others wait for.
        sql`select pg_try_advisory_xact_lock(${sql.raw(String(lock))}) as mine`,
      );
      if (row?.mine === true) return work();
      await sleep(LOOK_MS);
    }
  });
}
