import { setTimeout as sleep } from 'node:timers/promises';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { openDatabase } from '#db/client.ts';
import { createTestDatabase, type TestDatabase } from '#tests/helpers/database.ts';
import { auditStorage } from '#tests/helpers/faults/audit-storage.ts';
import { createFaultFeed } from '#tests/helpers/faults/fault-feed.ts';
import { faultRounds } from '#tests/helpers/faults/fault-rounds.ts';
import { createGateway, sendAll } from '#tests/helpers/faults/gateway.ts';
import { reportFault } from '#tests/helpers/faults/report-fault.ts';
import { type Served, serveSlipdrift } from '#tests/helpers/run-slipdrift.ts';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { TEST_KEY, withTestKey } from '#tests/helpers/test-key.ts';

const ROUNDS = 3 * faultRounds;
const DELIVERIES = 20;
/** Of `db/queries/lock-assessments.ts`: who holds it keeps assessments from being stored. */
const ASSESSMENTS_LOCK = 730_511_504;

let database: TestDatabase;
let programs: [Served, Served];
beforeAll(async () => {
  database = await createTestDatabase();
  programs = await Promise.all([serve(), serve()]);
});
afterAll(async () => {
  await Promise.all(programs.map((program) => program.kill('SIGTERM')));
  await database.drop();
});

const serve = () => serveSlipdrift({ DATABASE_URL: database.url, SLIPDRIFT_API_KEY: TEST_KEY });
const assess = (program: Served) =>
  fetch(`${program.url}/api/assess`, { method: 'POST', headers: withTestKey }).then(
    ({ status }) => status,
    () => 0,
  );
const countTouched = async () =>
  Number(
    (
      await database.client`
        select (select count(*) from touched_vehicles) + (select count(*) from claimed_vehicles) as n`
    )[0]?.n,
  );

it('stores each line once through two programs at once, and the one left brings the assessments up to date', {
  timeout: 120_000 * faultRounds,
}, async () => {
  const random = seededRandom(20_260_306);
  const feed = createFaultFeed({ seed: 8 });
  // Each gateway begins at another program, and goes to the other one with every try.
  const gateways = [0, 1].map((first) =>
    createGateway({ url: (attempt) => programs[(first + attempt) % 2 === 0 ? 0 : 1].url }),
  );
  const againMs: number[] = [];
  for (let round = 0; round < ROUNDS; round++) {
    const deliveries = Array.from({ length: DELIVERIES }, () => feed.next());
    const own = Array.from({ length: DELIVERIES / 2 }, () => feed.next());
    // Both send all of the first, so the same bodies and keys meet; and each some of its own.
    const sending = Promise.all(
      gateways.map((gateway, i) =>
        sendAll(gateway, [...deliveries, ...own.filter((_, at) => at % 2 === i)], 3),
      ),
    );
    await sleep(100 + random.uniform() * 600);
    const dying = programs[round % 2 === 0 ? 0 : 1];
    const assessing = Promise.all(programs.map(assess));
    await sleep(random.uniform() * 400);
    const startedMs = Date.now();
    await dying.kill('SIGKILL');
    if (round % 2 === 0) programs[0] = await serve();
    else programs[1] = await serve();
    againMs.push(Date.now() - startedMs);
    await Promise.all([sending, assessing]);
  }
  // The last one killed left its work noted, and nobody is told: the other looks by itself after the last delivery.
  await programs[0].kill('SIGKILL');
  const [last] = [feed.next()];
  const survivor = createGateway({ url: () => programs[1].url });
  await survivor.send(last);
  await expect.poll(countTouched, { timeout: 60_000, interval: 250 }).toBe(0);

  const acknowledged = [...gateways, survivor].flatMap((gateway) => gateway.acknowledged);
  const audit = await auditStorage(database.client, acknowledged);
  const [behind] = await database.client`
    select count(*) as n from vehicles v left join assessments a on a.vehicle = v.key where a.vehicle is null`;
  programs[0] = await serve();
  reportFault({
    fault: 'two programs, one database',
    made: `${ROUNDS} times one of them killed while both take the same bodies and assess`,
    tried: acknowledged.length,
    ...audit,
    againMs,
  });
  expect(gateways.flatMap(({ wrong }) => wrong)).toEqual([]);
  expect(audit.lost).toBe(0);
  expect(audit.twice).toBe(0);
  expect(audit.disagreements).toEqual([]);
  expect(behind).toEqual({ n: 0 });
});

it('waits in one program for what another has in hand', async () => {
  const holder = openDatabase(database.url, { connections: 1 });
  await holder.client`select pg_advisory_lock(${ASSESSMENTS_LOCK})`;
  const gateway = createGateway({ url: () => programs[0].url });
  await gateway.send(createFaultFeed({ seed: 9, from: 4_000_000, largeShare: 0, vehicles: 1 }).next());
  const first = assess(programs[0]);
  const countStoring = async () =>
    Number(
      (
        await database.client`
          select count(*) as n from pg_locks
          where locktype = 'advisory' and objid = ${ASSESSMENTS_LOCK} and not granted
            and database = (select oid from pg_database where datname = current_database())`
      )[0]?.n,
    );
  await expect.poll(countStoring, { timeout: 20_000 }).toBeGreaterThan(0);
  let isAnswered = false;
  const second = assess(programs[1]).finally(() => {
    isAnswered = true;
  });
  await sleep(2000);
  expect(await countStoring()).toBeGreaterThan(0);
  expect(isAnswered).toBe(false);
  await holder.close();
  expect(await Promise.all([first, second])).toEqual([200, 200]);
  expect(await countTouched()).toBe(0);
});
