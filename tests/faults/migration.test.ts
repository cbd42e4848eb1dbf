import { randomUUID } from 'node:crypto';
import { afterEach, beforeEach, expect, inject, it } from 'vitest';
import { openDatabase } from '#db/client.ts';
import { MIGRATION_LOCK, migrateDatabase } from '#db/migrate.ts';
import { serveSlipdrift } from '#tests/helpers/run-slipdrift.ts';
import { withDatabase } from '#tests/helpers/with-database.ts';

const admin = openDatabase(withDatabase(inject('templateUrl'), 'postgres'), { connections: 1 });
let name: string;
let url: string;
beforeEach(async () => {
  name = `slipdrift_test_${randomUUID().replaceAll('-', '')}`;
  url = withDatabase(inject('templateUrl'), name);
  await admin.client.unsafe(`create database ${name}`);
});
afterEach(() => admin.client.unsafe(`drop database ${name} with (force)`));

const countTables = async () => {
  const { client, close } = openDatabase(url, { connections: 1 });
  const [row] =
    await client`select count(*) as n from information_schema.tables where table_schema = 'public'`;
  await close();
  return row?.n;
};

it('migrates once when two programs start on one empty database', async () => {
  const both = await Promise.all([
    serveSlipdrift({ DATABASE_URL: url }),
    serveSlipdrift({ DATABASE_URL: url }),
  ]);
  for (const program of both) expect((await fetch(`${program.url}/health/ready`)).status).toBe(200);
  for (const program of both) expect(await program.kill('SIGTERM')).toBe(0);
});

it('starts from nothing when another process died in the middle of its migration', async () => {
  const dying = openDatabase(url, { connections: 1 });
  await dying.client`select pg_advisory_lock(${MIGRATION_LOCK})`;
  const [row] = await dying.client`select pg_backend_pid() as pid`;
  await dying.client.unsafe('begin; create table vehicles (half integer)');
  const half = dying.client`select pg_sleep(60)`.catch((error: Error) => error.message);
  const waiting = migrateDatabase(url);
  await new Promise((settle) => setTimeout(settle, 500));
  expect(await countTables()).toBe(0);
  await admin.client`select pg_terminate_backend(${row?.pid})`;
  await waiting;
  expect(await half).toMatch(/terminating connection|CONNECTION_CLOSED/);
  await dying.close(0);
  expect(await countTables()).toBeGreaterThan(10);
});

it('declines a database that a newer program has written, unchanged', async () => {
  await migrateDatabase(url);
  const { client, close } = openDatabase(url, { connections: 1 });
  await client`insert into drizzle.__drizzle_migrations (hash, created_at) values ('later', 99999999999999)`;
  await close();
  await expect(migrateDatabase(url)).rejects.toThrow('written by a newer Slipdrift');
});
