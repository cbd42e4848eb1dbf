import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { drizzle } from 'drizzle-orm/postgres-js';
import { migrate } from 'drizzle-orm/postgres-js/migrator';
import { afterEach, beforeEach, expect, inject, it } from 'vitest';
import { openDatabase, type RawClient } from '#db/client.ts';
import { migrateDatabase } from '#db/migrate.ts';
import { createEmptyDatabase, type TestDatabase } from '#tests/helpers/database.ts';
import { endWithUs } from '#tests/helpers/end-with-us.ts';
import { faultRounds } from '#tests/helpers/faults/fault-rounds.ts';
import { reportFault } from '#tests/helpers/faults/report-fault.ts';
import { seededRandom } from '#tests/helpers/seeded-random.ts';

const migrations = fileURLToPath(new URL('../../db/migrations', import.meta.url));
const migrator = fileURLToPath(new URL('../helpers/faults/migrate-process.ts', import.meta.url));
const KILLS = 8 * faultRounds;
const READINGS = 20_000;

let database: TestDatabase;
beforeEach(async () => {
  database = await createEmptyDatabase();
});
afterEach(() => database.drop());

/** The database as the first version of the program made it, with data. */
async function makeOld(client: RawClient): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'slipdrift-test-'));
  cpSync(migrations, folder, { recursive: true });
  const journal = join(folder, 'meta/_journal.json');
  const all = JSON.parse(readFileSync(journal, 'utf8')) as { entries: unknown[] };
  writeFileSync(journal, JSON.stringify({ ...all, entries: all.entries.slice(0, 1) }));
  await migrate(drizzle(client), { migrationsFolder: folder });
  rmSync(folder, { recursive: true });
  await client.unsafe(`
    create table readings_y2024m03 partition of readings
      for values from ('2024-03-01 00:00:00+00') to ('2024-04-01 00:00:00+00');
    insert into vehicles (unit) select 'M-' || n from generate_series(1, 50) n;
    insert into readings (at, vehicle, odometer_km, slip_rpm, duty_pct, fluid_c)
      select timestamptz '2024-03-01 00:00:00+00' + n * interval '1 minute', 1 + n % 50, n, n % 30, 85, 80
      from generate_series(0, ${READINGS - 1}) n;
    insert into receipts (id, content_type, complete, received, stored, duplicate, conflicting, refused, status, reply)
      select gen_random_uuid(), 'text/csv', true, n, n, 0, 0, 0, 200, '{}' from generate_series(1, 300) n;
    insert into refused_lines (receipt, line, raw, errors) select id, 1, 'raw', '[]' from receipts`);
}

/** Sums over what the first version stored, by the columns that it had. */
const sumUp = (client: RawClient) => client`
  select
    (select md5(string_agg(row(at, vehicle, odometer_km, slip_rpm, duty_pct, fluid_c)::text, '|' order by at))
      from readings) as readings,
    (select md5(string_agg(row(key, unit, created_at)::text, '|' order by key)) from vehicles) as vehicles,
    (select md5(string_agg(row(id, at, content_type, received, status)::text, '|' order by id)) from receipts) as receipts,
    (select md5(string_agg(row(id, receipt, line, raw)::text, '|' order by id)) from refused_lines) as refused`;

/** Everything that a schema is made of, as text. Partitions are made by deliveries. */
async function describeSchema(client: RawClient): Promise<string[]> {
  const rows = await client`
    select 'column ' || concat_ws(' ', table_schema, table_name, column_name, data_type, is_nullable, column_default) as what
    from information_schema.columns
    where table_schema in ('public', 'drizzle') and table_name not like 'readings_y%'
    union all
    select 'index ' || indexdef from pg_indexes where schemaname = 'public' and tablename not like 'readings_y%'
    union all
    select 'constraint ' || conrelid::regclass || ' ' || conname || ' ' || pg_get_constraintdef(oid)
    from pg_constraint
    where connamespace = 'public'::regnamespace and conrelid <> 0 and conrelid::regclass::text not like 'readings_y%'
    union all
    select 'migration ' || hash from drizzle.__drizzle_migrations
    order by 1`;
  return rows.map(({ what }) => String(what));
}

async function beginMigrator(): Promise<ChildProcess> {
  const child = spawn(process.execPath, ['--import', 'tsx', migrator, database.url], {
    stdio: ['ignore', 'pipe', 'ignore'],
  });
  endWithUs(child);
  await once(child.stdout, 'data');
  return child;
}

async function endOf(child: ChildProcess): Promise<void> {
  if (child.exitCode === null && child.signalCode === null) await once(child, 'exit');
}

/** A lock on what a later statement of a migration changes keeps it in the middle of its work. */
const HELD = ['lock table stretch_totals in row exclusive mode', 'lock table readings in access share mode'];

const countWaiting = async () =>
  Number(
    (
      await database.client`
        select count(distinct pid) as n from pg_locks
        where not granted and database = (select oid from pg_database where datname = current_database())`
    )[0]?.n,
  );

it.each([
  { processes: 1, how: 'one process migrates' },
  { processes: 2, how: 'two migrate at once' },
])(
  'ends at the same schema with the data untouched, however often it is killed midway: $how',
  {
    timeout: 120_000 * faultRounds,
  },
  async ({ processes, how }) => {
    const random = seededRandom(20_260_308 + processes);
    const { client, close } = openDatabase(database.url, { connections: 1 });
    await makeOld(client);
    const before = await sumUp(client);
    let midway = 0;
    for (let kill = 0; kill < KILLS / 2; kill++) {
      // A migrator that is not held may come to its end, and then no other begins.
      const lock = kill < KILLS / 4 ? (HELD[kill % HELD.length] ?? null) : null;
      if (lock !== null) await client.unsafe(`begin; ${lock}`);
      const children = await Promise.all(Array.from({ length: processes }, beginMigrator));
      if (lock === null) await sleep(random.uniform() * 250);
      // The lock of the migrations themselves keeps the second process waiting, so that two wait where two migrate.
      else await expect.poll(countWaiting, { timeout: 20_000 }).toBe(processes);
      for (const child of children) {
        if (child.exitCode === null) midway++;
        child.kill('SIGKILL');
        await endOf(child);
      }
      if (lock !== null) await client.unsafe('commit');
      expect(await sumUp(client)).toEqual(before);
    }
    const startedMs = Date.now();
    await Promise.all([migrateDatabase(database.url), migrateDatabase(database.url)]);
    const againMs = [Date.now() - startedMs];

    expect(await sumUp(client)).toEqual(before);
    const template = openDatabase(inject('templateUrl'), { connections: 1 });
    const wanted = await describeSchema(template.client);
    await template.close();
    expect(await describeSchema(client)).toEqual(wanted);
    expect(wanted.length).toBeGreaterThan(100);
    await close();
    expect(midway).toBeGreaterThan(0);
    reportFault({
      fault: 'migration killed',
      made: `SIGKILL ${midway} times midway, ${how}`,
      tried: 0,
      acknowledged: READINGS,
      lost: 0,
      twice: 0,
      againMs,
    });
  },
);
