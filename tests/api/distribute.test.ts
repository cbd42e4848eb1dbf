import { rmSync } from 'node:fs';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { distributeTables } from '#db/distribute/distribute-tables.ts';
import { onEveryNode, onOneNode, splitByVehicle } from '#db/distribute/places.ts';
import { changeActions } from '#server/contract/words.ts';
import { createTestDatabase, type TestDatabase } from '#tests/helpers/database.ts';
import { runCommand } from '#tests/helpers/run-slipdrift.ts';
import { loadStandIn, offerStandIn } from '#tests/helpers/stand-in-extension/install-stand-in.ts';
import { makeTemporaryFolder } from '#tests/helpers/temporary-folder.ts';

// On a stand-in for the extension that checks the rules of its documentation: the extension itself is not on this machine.
let database: TestDatabase;
const folders: string[] = [];
beforeAll(async () => {
  database = await createTestDatabase();
});
afterAll(async () => {
  await database.drop();
  for (const folder of folders) rmSync(folder, { recursive: true, force: true });
});

/** With a connection of its own, which sees what the database is set to now. */
const distribute = (isReal: boolean) => distributeTables(database.url, { isReal, shards: 8 });

/** Without sessions of the test's own pool, which would be taken for a Slipdrift at work. */
async function apart<T>(work: () => Promise<T>): Promise<T> {
  await database.client.unsafe(`
    select pg_terminate_backend(pid) from pg_stat_activity
    where datname = current_database() and pid <> pg_backend_pid()`);
  await database.client.unsafe("set application_name = 'a test'");
  return work();
}

const readKeys = () => database.client`
  select conname, conrelid::regclass::text as of, pg_get_constraintdef(oid) as says from pg_constraint
  where contype = 'f' and conparentid = 0 and connamespace = 'public'::regnamespace order by 1, 2`;
const readPlaced = async (kind: string) =>
  (
    await database.client`
      select table_name::text as name from citus_tables where citus_table_type = ${kind} order by 1`
  ).map(({ name }) => String(name));

it('says in a sentence why it cannot, and changes nothing', async () => {
  const before = await readKeys();
  await expect(distribute(true)).rejects.toThrow(/does not have the Citus extension/);

  folders.push(await offerStandIn(database));
  await expect(distribute(true)).rejects.toThrow(/this database does not/);

  const { client } = database;
  const fresh = await client.reserve();
  await fresh.unsafe(`set extension_control_path = '${folders[0]}:$system'`);
  await fresh.unsafe('create extension citus');
  fresh.release();
  await expect(distribute(true)).rejects.toThrow(/shared_preload_libraries/);

  await loadStandIn(database);
  await expect(distribute(true)).rejects.toThrow(/citus_set_coordinator_host/);

  await client`select citus_set_coordinator_host('first.example')`;
  await client`select citus_add_node('second.example', 5432)`;
  await expect(distribute(true)).rejects.toThrow(/A Slipdrift works with this database/);
  expect(await readKeys()).toEqual(before);
  expect([...(await readPlaced('distributed')), ...(await readPlaced('reference'))]).toEqual([]);
});

it('declines with exit code 1 on the PostgreSQL that Slipdrift brings, and takes no odd number of pieces', async () => {
  const folder = makeTemporaryFolder();
  folders.push(folder);
  const own = { DATABASE_URL: '', SLIPDRIFT_DATA: folder };
  expect(await runCommand(['distribute', '--yes'], own)).toMatchObject({
    code: 1,
    error: expect.stringContaining('is on one machine'),
  });
  expect(await runCommand(['distribute', '--shards', '2.5'], own)).toMatchObject({
    code: 1,
    error: expect.stringContaining('not 2.5'),
  });
});

it('only says what it would do without --yes', async () => {
  const { code, out } = await runCommand(['distribute'], { DATABASE_URL: database.url });
  expect(code).toBe(0);
  expect(out).toContain('Would distribute over the first node and 1 other, 32 pieces a table:');
  expect(out).toContain("select create_distributed_table('public.readings', 'vehicle'");
  expect(out).toMatch(/changes: triggers keep its rows/);
  expect(out).toContain('Nothing was changed.');
  expect(await readPlaced('distributed')).toEqual([]);
});

it('stops at what the extension refuses, keeps what has moved, and finishes the next time', async () => {
  const { client } = database;
  const keys = await readKeys();
  await client`insert into vehicles (unit) values ('V-1')`;
  await client`insert into lives (vehicle, fitted_km, source) select key, 0, 'new' from vehicles`;
  await client.unsafe('create trigger lives_odd before update on lives execute function refuse_to_forget()');

  await expect(apart(() => distribute(true))).rejects.toThrow(/"lives" because it has triggers/);
  expect(await readPlaced('reference')).toEqual([...onEveryNode].sort());
  expect((await readPlaced('distributed')).length).toBeLessThan(splitByVehicle.length);

  await client.unsafe('drop trigger lives_odd on lives');
  const { steps } = await apart(() => distribute(true));
  expect(steps.filter(({ sql }) => sql.includes('create_reference_table'))).toEqual([]);
  expect(await readPlaced('distributed')).toEqual([...splitByVehicle].sort());
  expect(await readPlaced('reference')).toEqual([...onEveryNode].sort());
  expect(await readKeys()).toEqual(keys);
  expect((await client`select from citus.stand_in_freed`).length).toBe(
    splitByVehicle.length + onEveryNode.length,
  );
  const groups = await client`
    select distinct colocation_id from citus_tables where citus_table_type = 'distributed'`;
  expect(groups.length).toBe(1);
  expect((await client`select from lives`).length).toBe(1);
  const noted = await client`select action from changes where subject = 'storage'`;
  expect(noted.map(({ action }) => action)).toEqual(['distributed']);
  expect(changeActions).toContain('distributed');
  const views = await client`select from pg_views where schemaname = 'notebook'`;
  expect(views.length).toBeGreaterThan(5);
});

it('has nothing left to do then, and leaves the rest on the first node', async () => {
  expect((await apart(() => distribute(true))).steps).toEqual([]);
  for (const name of Object.keys(onOneNode))
    expect([...(await readPlaced('distributed')), ...(await readPlaced('reference'))]).not.toContain(name);
});

it('declines where a table lies elsewhere than it should', async () => {
  const { client } = database;
  await client`update citus.stand_in_placed set field = 'life' where name = 'stretches'::regclass`;
  await expect(apart(() => distribute(false))).rejects.toThrow(/stretches is split by life already/);
});
