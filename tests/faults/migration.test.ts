import { afterEach, beforeEach, expect, it } from 'vitest';
import { openDatabase } from '#db/client.ts';
import { MIGRATION_LOCK, migrateDatabase } from '#db/migrate.ts';
import { noteMigrations, readMigrations, runMigrations } from '#db/migrations-known.ts';
import { createEmptyDatabase, type TestDatabase } from '#tests/helpers/database.ts';
import { serveSlipdrift } from '#tests/helpers/run-slipdrift.ts';

let database: TestDatabase;
beforeEach(async () => {
  database = await createEmptyDatabase();
});
afterEach(() => database.drop());

const countTables = async () => {
  const [row] =
    await database.client`select count(*) as n from information_schema.tables where table_schema = 'public'`;
  return row?.n;
};

it('migrates once when two programs start on one empty database', async () => {
  const both = await Promise.all([
    serveSlipdrift({ DATABASE_URL: database.url }),
    serveSlipdrift({ DATABASE_URL: database.url }),
  ]);
  for (const program of both) expect((await fetch(`${program.url}/health/ready`)).status).toBe(200);
  for (const program of both) expect(await program.kill('SIGTERM')).toBe(0);
});

it('starts from nothing when another process died in the middle of its migration', async () => {
  const dying = openDatabase(database.url, { connections: 1 });
  await dying.client`select pg_advisory_lock(${MIGRATION_LOCK})`;
  const [row] = await dying.client`select pg_backend_pid() as pid`;
  await dying.client.unsafe('begin; create table vehicles (half integer)');
  const half = dying.client`select pg_sleep(60)`.catch((error: Error) => error.message);
  const waiting = migrateDatabase(database.url);
  await new Promise((settle) => setTimeout(settle, 500));
  expect(await countTables()).toBe(0);
  await database.client`select pg_terminate_backend(${row?.pid})`;
  await waiting;
  expect(await half).toMatch(/terminating connection|CONNECTION_CLOSED/);
  await dying.close(0);
  expect(await countTables()).toBeGreaterThan(10);
});

it('declines a database that a newer program has written, unchanged', async () => {
  await migrateDatabase(database.url);
  await database.client`insert into drizzle.__drizzle_migrations (hash, created_at) values ('later', 99999999999999)`;
  await expect(migrateDatabase(database.url)).rejects.toThrow('written by a newer Slipdrift');
});

it('writes down the length of the bookings that have a day already', async () => {
  const all = readMigrations();
  const added = all.findIndex(({ name }) => name === '0007_booking-hours');
  await database.client.begin((transaction) => runMigrations(transaction, all.slice(0, added)));
  await database.client.unsafe(`
    insert into depots (id, name, bays, time_zone) values ('north', 'North', 2, 'UTC');
    insert into vehicles (unit) values ('a'), ('b'), ('c');
    insert into bookings (vehicle, state, depot, bay, day, starts_at, ends_at, created_at, created_by, changed_at, changed_by)
    select key, v.state, 'north', v.bay, v.day, v.day + time '08:00', v.day + time '15:30', now(), 'x', now(), 'x'
    from vehicles join (values ('a', 'booked', 1, date '2026-11-30'), ('b', 'done', 2, date '2026-11-23'),
      ('c', 'put_off', null, null)) v (unit, state, bay, day) using (unit)`);
  await database.client.begin((transaction) => runMigrations(transaction, all.slice(added)));
  const rows = await database.client`select state, hours from bookings order by state`;
  expect([...rows]).toEqual([
    { state: 'booked', hours: 7.5 },
    { state: 'done', hours: 7.5 },
    { state: 'put_off', hours: null },
  ]);
});

it('gives solenoids that were entered before there were packets their usual wiring and tolerance', async () => {
  const all = readMigrations();
  const added = all.findIndex(({ name }) => name === '0008_packets');
  await database.client.begin((transaction) => runMigrations(transaction, all.slice(0, added)));
  await database.client.unsafe(`
    insert into platforms (id, name, limit_rpm, band_edges_pct, reference, gate, costs, solenoid) values
      ('bus', 'Bus', 150, '{40,70,100}', '{"duty_pct":85,"load_pct":50,"fluid_c":85}',
        '{"low_load_pct":15,"overrun_slip_rpm":-15,"low_speed_kmh":30,"cold_fluid_c":55,"hot_fluid_c":125,"duty_step_pct":5,"duty_window_s":30}',
        '{"road_failure":9000,"planned_repair":3200,"inspection":120,"lost_day":60}', '{"ohm":5.5,"supply_v":24}');
    insert into platforms (id, name, limit_rpm, band_edges_pct, reference, gate, costs)
      select 'van', 'Van', limit_rpm, band_edges_pct, reference, gate, costs from platforms`);
  await noteMigrations(database.client, all.slice(0, added));
  const program = await serveSlipdrift({
    DATABASE_URL: database.url,
    SLIPDRIFT_API_KEY: 'key-of-the-upgrade',
  });
  try {
    const answer = await fetch(`${program.url}/api/platforms`, {
      headers: { authorization: 'Bearer key-of-the-upgrade' },
    });
    expect(await answer.json()).toMatchObject([
      {
        id: 'bus',
        solenoid: { ohm: 5.5, supply_v: 24, wiring_ohm: 0.5, tolerance_pct: 25 },
        converter: null,
      },
      { id: 'van', solenoid: null, converter: null },
    ]);
  } finally {
    await program.kill('SIGTERM');
  }
});
