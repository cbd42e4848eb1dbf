import { migrate } from 'drizzle-orm/postgres-js/migrator';
import { openDatabase } from './client.ts';
import type { Connection } from './connection.ts';
import { migrationsFolder, readLevel, readMigrations } from './migrations-known.ts';
import { dropViews, placeViews } from './notebook/place-views.ts';
import { StorageError } from './storage-error.ts';

/** Any fixed number will do: it only has to differ from other users of the same server's advisory locks. */
export const MIGRATION_LOCK = 730_511_501;
const WAIT_FOR_OTHERS_S = 120;

/**
 * Brings the schema up to date. Two processes may start at once: the second waits, then finds nothing to do. The lock
 * and the migrations share one connection, and all pending migrations are one transaction: when this process dies
 * midway, the server undoes it and frees the lock. The views for notebooks go before the tables below them change, and
 * come back after; where that is not reached, the next start makes them.
 */
export async function migrateDatabase(url: string): Promise<void> {
  const { db, client, close } = openDatabase(url, { connections: 1 });
  try {
    await lockSchema(client);
    const isBehind = await refuseNewerSchema(client);
    if (isBehind) await client.begin((transaction) => dropViews(transaction));
    await migrate(db as unknown as Parameters<typeof migrate>[0], { migrationsFolder });
    await client.begin((transaction) => placeViews(transaction));
  } finally {
    await close();
  }
}

/** Keeps others from changing the schema, or, shared, only from changing it, for as long as the connection lives. */
export async function lockSchema(client: Connection, how: 'alone' | 'shared' = 'alone'): Promise<void> {
  await client.unsafe(`set lock_timeout = '${WAIT_FOR_OTHERS_S}s'`);
  try {
    await (how === 'alone'
      ? client`select pg_advisory_lock(${MIGRATION_LOCK})`
      : client`select pg_advisory_lock_shared(${MIGRATION_LOCK})`);
  } catch (error) {
    if ((error as { code?: string }).code !== '55P03') throw error;
    throw new StorageError(
      `Another process has been changing the schema of this database for over ${WAIT_FOR_OTHERS_S} s. Nothing was changed; wait for it to end, or stop it, and start again.`,
    );
  }
}

/** Answers whether migrations are still to be run. */
export async function refuseNewerSchema(client: Connection): Promise<boolean> {
  const level = await readLevel(client);
  const newestKnown = Math.max(...readMigrations().map(({ when }) => when));
  if (level === null || level <= newestKnown) return level !== newestKnown;
  throw new StorageError(
    'This database was written by a newer Slipdrift. Nothing was changed; start that version or a later one.',
  );
}
