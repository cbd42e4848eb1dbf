import { sql } from 'drizzle-orm';
import { type Database, rawClient } from '#db/client.ts';
import { PARTITION_LOCK } from '#db/partitions.ts';
import { listReadingMonths } from './list-reading-months.ts';

/**
 * Drops partitions that hold no reading, but for the months to keep, and answers which: what a clock that was wrong once
 * has left, or months of which every reading was taken away. One that is needed again is made again.
 */
export async function dropEmptyMonths(db: Database, keep: ReadonlySet<string>): Promise<string[]> {
  const dropped: string[] = [];
  for (const { month, table } of await listReadingMonths(db)) {
    if (keep.has(month) || (await holdsReadings(db, table))) continue;
    const isGone = await db.transaction(async (transaction) => {
      // It waits for readers and makes writers wait behind it: give up early and try again another day.
      await transaction.execute(sql`set local lock_timeout = '5s'`);
      await transaction.execute(sql`select pg_advisory_xact_lock(${PARTITION_LOCK})`);
      // The parent first, as writers take them; then nothing can arrive any more.
      await transaction.execute(sql`lock table only readings in access exclusive mode`);
      if (await holdsReadings(transaction, table)) return false;
      await transaction.execute(sql`drop table ${sql.identifier(table)}`);
      return true;
    });
    if (isGone) dropped.push(month);
  }
  return dropped;
}

async function holdsReadings(db: Database, table: string): Promise<boolean> {
  const [row] = await rawClient(db).unsafe(`select exists (select from ${table}) as found`);
  return row?.found === true;
}
