import { sql } from 'drizzle-orm';
import { type Database, rawClient } from './client.ts';

/** Serialises the makers of partitions; see MIGRATION_LOCK for the number. */
export const PARTITION_LOCK = 730_511_502;

const knownMonths = new WeakMap<object, Set<string>>();

/**
 * Makes sure that readings of these months (`YYYY-MM`, UTC) have a partition to go to. Cheap when they have. Call it on
 * the pool before the transaction that writes: a partition is attached under a lock that lets inserts go on, but two
 * long transactions that both make partitions would wait for each other.
 */
export async function ensureReadingMonths(db: Database, months: Iterable<string>): Promise<void> {
  const known = monthsKnownTo(db);
  const wanted = [...new Set(months)].filter((month) => !known.has(month)).sort();
  if (wanted.length === 0) return;
  const bounds = wanted.map(monthBounds);
  await db.transaction(async (transaction) => {
    await transaction.execute(sql`select pg_advisory_xact_lock(${PARTITION_LOCK})`);
    for (const { name, from, to } of bounds) {
      const [row] = await transaction.execute<{ exists: boolean }>(
        sql`select to_regclass(${`public.${name}`}) is not null as exists`,
      );
      if (row?.exists === true) continue;
      const table = sql.identifier(name);
      await transaction.execute(sql`create table ${table} (like readings including all)`);
      await transaction.execute(
        sql`alter table readings attach partition ${table} for values from (${sql.raw(`'${from}'`)}) to (${sql.raw(`'${to}'`)})`,
      );
    }
  });
  for (const month of wanted) known.add(month);
}

/**
 * Stores readings of these months, in a transaction of its own, once they have a partition to go to; does it again
 * where retention, here or in another process, has meanwhile dropped one that was known.
 */
export async function withReadingMonths<T>(
  db: Database,
  months: ReadonlySet<string>,
  store: () => Promise<T>,
): Promise<T> {
  await ensureReadingMonths(db, months);
  try {
    return await store();
  } catch (error) {
    if (!isMissingPartition(error)) throw error;
    for (const month of months) monthsKnownTo(db).delete(month);
    await ensureReadingMonths(db, months);
    return store();
  }
}

/** PostgreSQL says of a row without a partition that a check failed. */
const isMissingPartition = (error: unknown): boolean =>
  error instanceof Error && 'code' in error && error.code === '23514';

/**
 * Retention: drops the partitions whose every reading is older than `before`, and answers their months. Stretches,
 * assessments and receipts stay.
 */
export async function dropReadingMonthsBefore(db: Database, before: Date): Promise<string[]> {
  const oldestKept = before.toISOString().slice(0, 7);
  const rows = await db.execute<{ name: string }>(sql`
    select child.relname as name
    from pg_inherits join pg_class child on child.oid = inhrelid
    where inhparent = 'public.readings'::regclass
    order by 1`);
  const dropped: string[] = [];
  for (const { name } of rows) {
    const match = /^readings_y(\d{4})m(\d{2})$/.exec(name);
    const month = match === null ? undefined : `${match[1]}-${match[2]}`;
    if (month === undefined || month >= oldestKept) continue;
    await db.transaction(async (transaction) => {
      // The drop waits for readers and makes writers wait behind it: give up early and try again another day.
      await transaction.execute(sql`set local lock_timeout = '5s'`);
      await transaction.execute(sql`select pg_advisory_xact_lock(${PARTITION_LOCK})`);
      await transaction.execute(sql`drop table if exists ${sql.identifier(name)}`);
    });
    monthsKnownTo(db).delete(month);
    dropped.push(month);
  }
  return dropped;
}

/** The month of a moment as `ensureReadingMonths` takes it. */
export const readingMonth = (at: Date): string => at.toISOString().slice(0, 7);

function monthsKnownTo(db: Database): Set<string> {
  const client = rawClient(db);
  const known = knownMonths.get(client) ?? new Set<string>();
  knownMonths.set(client, known);
  return known;
}

function monthBounds(month: string): { name: string; from: string; to: string } {
  const match = /^(\d{4})-(0[1-9]|1[0-2])$/.exec(month);
  if (match === null) throw new RangeError(`ensureReadingMonths requires months as YYYY-MM, got '${month}'`);
  const [, year = '', number = ''] = match;
  const next = new Date(Date.UTC(Number(year), Number(number), 1)).toISOString().slice(0, 10);
  return { name: `readings_y${year}m${number}`, from: `${month}-01 00:00:00+00`, to: `${next} 00:00:00+00` };
}
