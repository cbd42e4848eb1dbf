import { randomUUID } from 'node:crypto';
import { inject } from 'vitest';
import { type Database, openDatabase, type RawClient } from '#db/client.ts';
import { withDatabase } from './with-database.ts';

export interface TestDatabase {
  url: string;
  db: Database;
  client: RawClient;
  /** closes the pool and removes the database */
  drop(): Promise<void>;
}

/** A fresh, migrated database of one's own; make one in `beforeAll` and drop it in `afterAll`. */
export const createTestDatabase = (): Promise<TestDatabase> =>
  createDatabase(`template ${databaseName(inject('templateUrl'))}`);

/** A database of one's own in which no migration has run. */
export const createEmptyDatabase = (): Promise<TestDatabase> => createDatabase('');

async function createDatabase(options: string): Promise<TestDatabase> {
  const templateUrl = inject('templateUrl');
  const name = `slipdrift_test_${randomUUID().replaceAll('-', '')}`;
  await administer(templateUrl, (admin) => admin.unsafe(`create database ${name} ${options}`));
  const url = withDatabase(templateUrl, name);
  const { db, client, close } = openDatabase(url);
  return {
    url,
    db,
    client,
    async drop() {
      await close();
      await administer(templateUrl, (admin) => admin.unsafe(`drop database if exists ${name} with (force)`));
    },
  };
}

/** A database cannot be copied while someone is connected to it, so administration goes through `postgres`. */
async function administer(templateUrl: string, work: (admin: RawClient) => Promise<unknown>): Promise<void> {
  const { client, close } = openDatabase(withDatabase(templateUrl, 'postgres'), { connections: 1 });
  try {
    await work(client);
  } finally {
    await close();
  }
}

const databaseName = (url: string) => new URL(url).pathname.slice(1);
