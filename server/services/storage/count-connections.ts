import { sql } from 'drizzle-orm';
import type { Database } from '#db/client.ts';

/** Connections of Slipdrift to its database, asked of the database itself. */
export async function countConnections(db: Database): Promise<{ open: number; active: number }> {
  const [row] = await db.execute<{ open: number; active: number }>(sql`
    select count(*) as open, count(*) filter (where state <> 'idle') as active
    from pg_stat_activity
    where datname = current_database() and application_name = 'slipdrift'`);
  return { open: row?.open ?? 0, active: row?.active ?? 0 };
}
