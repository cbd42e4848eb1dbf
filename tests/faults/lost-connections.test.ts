import { afterAll, beforeAll, expect, it } from 'vitest';
import { createTestDatabase, type TestDatabase } from '#tests/helpers/database.ts';
import { type Served, serveSlipdrift } from '#tests/helpers/run-slipdrift.ts';
import { withTestKey } from '#tests/helpers/test-key.ts';

let database: TestDatabase;
let program: Served;
beforeAll(async () => {
  database = await createTestDatabase();
  program = await serveSlipdrift({ DATABASE_URL: database.url, SLIPDRIFT_MAX_BODY_MIB: '64' });
});
afterAll(async () => {
  await program.kill('SIGTERM');
  await database.drop();
});

const lines = (from: number, count: number) =>
  Array.from({ length: count }, (_, i) =>
    JSON.stringify({
      vehicle: `B-${(from + i) % 50}`,
      at: new Date(Date.UTC(2026, 2, 1) + (from + i) * 1000).toISOString(),
      odometer_km: 1000,
      slip_rpm: 12,
      duty_pct: 85,
      fluid_c: 85,
    }),
  ).join('\n');

const deliver = (body: string) =>
  fetch(`${program.url}/api/readings`, {
    method: 'POST',
    headers: { ...withTestKey, 'content-type': 'application/x-ndjson' },
    body,
  });

/** What a restart of the database server does to its clients. */
const cutConnections = () => database.client`
  select pg_terminate_backend(pid) from pg_stat_activity
  where datname = current_database() and pid <> pg_backend_pid()`;

it('survives the loss of its connections in the middle of deliveries, and takes them when they come again', async () => {
  const body = lines(0, 20_000);
  for (let round = 0; round < 3; round += 1) {
    const under = deliver(body);
    await new Promise((settle) => setTimeout(settle, 120 + 150 * round));
    await cutConnections();
    const { status } = await under;
    expect([200, 503], program.output().slice(-2000)).toContain(status);
  }
  expect(program.child.exitCode).toBeNull();
  await expect
    .poll(async () => (await fetch(`${program.url}/health/ready`)).status, { timeout: 20_000 })
    .toBe(200);
  const again = await Promise.all([deliver(body), deliver(lines(20_000, 500)), deliver(lines(30_000, 500))]);
  expect(again.map((response) => response.status)).toEqual([200, 200, 200]);
  expect(await database.client`select count(*) as n from readings`).toEqual([{ n: 21_000 }]);
});
