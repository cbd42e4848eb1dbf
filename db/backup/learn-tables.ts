import type { RawTransaction } from '#db/connection.ts';
import { type Migration, runMigrations } from '#db/migrations-known.ts';
import { quoteName } from './quote-name.ts';

/** What the migrations make of nothing. */
export interface KnownTables {
  /** every table that any of them has made, later dropped ones too; a partitioned one once */
  names: ReadonlySet<string>;
  /** rows that they put into tables themselves */
  seeded: ReadonlyMap<string, number>;
}

const TRIAL = 'slipdrift_trial';

/** Runs all migrations in a schema of its own, looks, and removes it again. */
export async function learnTables(
  transaction: RawTransaction,
  migrations: readonly Migration[],
): Promise<KnownTables> {
  await transaction.unsafe(`create schema ${TRIAL}`);
  const names = new Set<string>();
  for (const migration of migrations) {
    await runMigrations(transaction, [migration], TRIAL);
    for (const name of await listOuterTables(transaction, TRIAL)) names.add(name);
  }
  const seeded = await countRows(transaction, TRIAL, await listOuterTables(transaction, TRIAL));
  await transaction.unsafe(`drop schema ${TRIAL} cascade`);
  return { names, seeded };
}

/** Tables of a schema, a partitioned one without its partitions. */
export async function listOuterTables(transaction: RawTransaction, schema: string): Promise<string[]> {
  const rows = await transaction<{ name: string }[]>`
    select relname as name from pg_class
    where relnamespace = (select oid from pg_namespace where nspname = ${schema})
      and relkind in ('r', 'p') and not relispartition
    order by relname collate "C"`;
  return rows.map(({ name }) => name);
}

/** Rows of those tables that have any, counted to a thousand at most. */
export async function countRows(
  transaction: RawTransaction,
  schema: string,
  tables: readonly string[],
): Promise<Map<string, number>> {
  const counts = new Map<string, number>();
  for (const name of tables) {
    const [row] = await transaction.unsafe(
      `select count(*) as n from (select from ${schema}.${quoteName(name)} limit 1000) as few`,
    );
    if (Number(row?.n) > 0) counts.set(name, Number(row?.n));
  }
  return counts;
}
