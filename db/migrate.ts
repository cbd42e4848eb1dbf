import { fileURLToPath } from 'node:url';
import { type MigrationMeta, readMigrationFiles } from 'drizzle-orm/migrator';
import { migrate } from 'drizzle-orm/postgres-js/migrator';
import { openDatabase, type RawClient } from './client.ts';
import { StorageError } from './storage-error.ts';

const migrationsFolder = fileURLToPath(new URL('./migrations', import.meta.url));

/** Any fixed number will do: it only has to differ from other users of the same server's advisory locks. */
export const MIGRATION_LOCK = 730_511_501;
const WAIT_FOR_OTHERS_S = 120;

/**
 * Brings the schema up to date. Two processes may start at once: the second waits, then finds nothing to do. The lock
 * and the migrations share one connection, and all pending migrations are one transaction: when this process dies
 * midway, the server undoes it and frees the lock.
 */
export async function migrateDatabase(url: string): Promise<void> {
  const { db, client, close } = openDatabase(url, { connections: 1 });
  try {
    await lock(client);
    await refuseNewerSchema(client, readMigrationFiles({ migrationsFolder }));
    await migrate(db as unknown as Parameters<typeof migrate>[0], { migrationsFolder });
  } finally {
    await close();
  }
}

async function lock(client: RawClient): Promise<void> {
  await client.unsafe(`set lock_timeout = '${WAIT_FOR_OTHERS_S}s'`);
  try {
    await client`select pg_advisory_lock(${MIGRATION_LOCK})`;
  } catch (error) {
    if ((error as { code?: string }).code !== '55P03') throw error;
    throw new StorageError(
      `Another process has been changing the schema of this database for over ${WAIT_FOR_OTHERS_S} s. Nothing was changed; wait for it to end, or stop it, and start again.`,
    );
  }
}

async function refuseNewerSchema(client: RawClient, known: MigrationMeta[]): Promise<void> {
  const [table] = await client`select to_regclass('drizzle.__drizzle_migrations') is not null as exists`;
  if (table?.exists !== true) return;
  const [last] = await client`select max(created_at) as at from drizzle.__drizzle_migrations`;
  const newestKnown = Math.max(...known.map((migration) => migration.folderMillis));
  if (typeof last?.at !== 'number' || last.at <= newestKnown) return;
  throw new StorageError(
    'This database was written by a newer Slipdrift. Nothing was changed; start that version or a later one.',
  );
}
