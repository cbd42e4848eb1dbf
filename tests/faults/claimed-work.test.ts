import { setTimeout as sleep } from 'node:timers/promises';
import { pino } from 'pino';
import { afterAll, beforeAll, expect, it, vi } from 'vitest';
import { LIVING_WORKERS } from '#db/hold-worker-number.ts';
import { programActor } from '#server/services/actor.ts';
import { bringUpToDate } from '#server/services/assessment/bring-up-to-date.ts';
import { createTestDatabase, type TestDatabase } from '#tests/helpers/database.ts';
import { auditStorage } from '#tests/helpers/faults/audit-storage.ts';
import { createFaultFeed } from '#tests/helpers/faults/fault-feed.ts';
import { faultRounds } from '#tests/helpers/faults/fault-rounds.ts';
import { createGateway, sendAll } from '#tests/helpers/faults/gateway.ts';
import { reportFault } from '#tests/helpers/faults/report-fault.ts';
import {
  type RunningProgram,
  runSlipdrift,
  type Served,
  serveSlipdrift,
} from '#tests/helpers/run-slipdrift.ts';
import { seededRandom } from '#tests/helpers/seeded-random.ts';

const ROUNDS = 3 * faultRounds;
const DELIVERIES = 25;
const VEHICLES = 150;

let database: TestDatabase;
let app: Served;
const workers: RunningProgram[] = [];
beforeAll(async () => {
  database = await createTestDatabase();
  await noteWhatIsTakenTwice();
  app = await serveSlipdrift({ DATABASE_URL: database.url, SLIPDRIFT_WORK: 'elsewhere' });
  workers.push(...(await Promise.all([startWorker(), startWorker()])));
});
afterAll(async () => {
  await Promise.all([app, ...workers].map((program) => program?.kill('SIGTERM')));
  await database?.drop();
});

/** The database itself notes each vehicle that one worker takes while another that lives has it. */
const noteWhatIsTakenTwice = () =>
  database.client.unsafe(`
    create table taken (vehicle integer, worker integer, before integer, is_twice boolean);
    create function note_taken() returns trigger language plpgsql as $$ begin
      insert into taken values (new.vehicle, new.claimed_by, old.claimed_by,
        old.claimed_by <> new.claimed_by and old.claimed_by in (${LIVING_WORKERS}));
      return new;
    end $$;
    create trigger taken before update on claimed_vehicles for each row when (new.claimed_by is not null)
      execute function note_taken();`);

async function startWorker(): Promise<RunningProgram> {
  const program = runSlipdrift(['work'], { DATABASE_URL: database.url, SLIPDRIFT_WORKERS: '1' });
  await vi.waitFor(() => expect(program.output()).toContain('"working"'), { timeout: 60_000, interval: 20 });
  return program;
}

const count = async (what: string) =>
  Number((await database.client.unsafe(`select count(*) as n from ${what}`))[0]?.n);
const countNoted = async () => (await count('touched_vehicles')) + (await count('claimed_vehicles'));
const stretches = async () => [
  ...(await database.client`select * from stretches order by vehicle, life, band, stretch`),
  ...(await database.client`select * from stretch_totals order by vehicle, life, stretch`),
];

it('assesses every vehicle once, in two workers of which one after the other is killed', {
  timeout: 180_000 * faultRounds,
}, async () => {
  const random = seededRandom(20_261_127);
  const feed = createFaultFeed({ seed: 11, vehicles: VEHICLES, largest: 7_000 });
  const gateway = createGateway({ url: () => app.url });
  const againMs: number[] = [];
  let killedAtWork = 0;
  for (let round = 0; round < ROUNDS; round++) {
    const sending = sendAll(
      gateway,
      Array.from({ length: DELIVERIES }, () => feed.next()),
      3,
    );
    // Every other time while deliveries still come.
    if (round % 2 === 0) await sending;
    await expect
      .poll(() => count('claimed_vehicles where claimed_by is not null'), { timeout: 60_000, interval: 5 })
      .toBeGreaterThan(0);
    await sleep(random.uniform() * 250);
    const startedMs = Date.now();
    const dying = round % workers.length;
    if ((await count('claimed_vehicles where claimed_by is not null')) > 0) killedAtWork++;
    await workers[dying]?.kill('SIGKILL');
    await sending;
    // What it had in hand is done by the one that is left.
    await expect.poll(countNoted, { timeout: 60_000, interval: 20 }).toBe(0);
    againMs.push(Date.now() - startedMs);
    workers[dying] = await startWorker();
  }

  const audit = await auditStorage(database.client, gateway.acknowledged);
  reportFault({
    fault: 'one app, two workers',
    made: `${ROUNDS} times a worker killed at its work, while deliveries come or after`,
    tried: gateway.acknowledged.length,
    ...audit,
    againMs,
  });
  expect(gateway.wrong).toEqual([]);
  expect(audit).toMatchObject({ lost: 0, twice: 0, disagreements: [] });
  expect(killedAtWork).toBeGreaterThan(0);
  expect(
    new Set((await database.client`select worker from taken`).map((row) => row.worker)).size,
  ).toBeGreaterThan(1);
  expect(await count('taken where is_twice')).toBe(0);
  const ranks = await database.client`select rank, chance from assessments order by rank`;
  expect(ranks.map(({ rank }) => rank)).toEqual(Array.from({ length: VEHICLES }, (_, i) => i + 1));
  expect(ranks.every(({ chance }) => chance !== null)).toBe(true);
  expect(await count('vehicles')).toBe(VEHICLES);
  await Promise.all(workers.map((worker) => worker.kill('SIGTERM')));

  const found = await stretches();
  await database.client.unsafe(`delete from stretches; delete from stretch_totals; delete from odometer_steps;
    insert into touched_vehicles (vehicle, from_at, to_at) select vehicle, first_at, last_at from reading_spans`);
  const ctx = {
    db: database.db,
    now: () => new Date(),
    log: pino({ level: 'silent' }),
    actor: programActor('test'),
  };
  expect(await bringUpToDate(ctx, { learn: false })).toBeGreaterThanOrEqual(VEHICLES);
  expect(found.length).toBeGreaterThan(VEHICLES);
  expect(await stretches()).toEqual(found);
});
