import { rmSync } from 'node:fs';
import { pino } from 'pino';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type OpenedDatabase, openDatabase } from '#db/client.ts';
import { type EmbeddedServer, startEmbedded } from '#db/embedded/start-embedded.ts';
import { type Running, startSlipdrift } from '#server/main.ts';
import { readSettings } from '#server/settings.ts';
import { drivePlainly } from '#tests/helpers/drive-plainly.ts';
import { toNdjson } from '#tests/helpers/make-reading.ts';
import { exceptions } from '#tests/helpers/plans/exceptions.ts';
import { findCrossings, listSplitTables, type PlanNode } from '#tests/helpers/plans/find-crossings.ts';
import {
  followPlans,
  pretendMuch,
  type RecordedPlan,
  startRecording,
} from '#tests/helpers/plans/record-plans.ts';
import { plainEnd, plainFleet } from '#tests/helpers/send-plain-fleet.ts';
import { callsTo } from '#tests/helpers/start-app.ts';
import { makeTemporaryFolder } from '#tests/helpers/temporary-folder.ts';
import { TEST_KEY } from '#tests/helpers/test-key.ts';

const DAY_MS = 86_400_000;
const few = plainFleet.slice(0, 3);

const folder = makeTemporaryFolder();
let server: EmbeddedServer;
let own: OpenedDatabase;
let running: Running;
let calls: ReturnType<typeof callsTo>;
let read: () => RecordedPlan[];

beforeAll(async () => {
  server = await startEmbedded({ folder, durable: false });
  own = openDatabase(server.url, { connections: 1 });
  await own.client`select 1`;
  const settings = { ...readSettings({}), databaseUrl: server.url, port: 0, apiKey: TEST_KEY };
  await startRecording(own.client);
  running = await startSlipdrift(settings, pino({ level: 'silent' }), {
    clockShiftMs: plainEnd.getTime() - Date.now(),
  });
  calls = callsTo(running.url);
  read = followPlans(server.folder);
  await post('/api/platforms', [{ id: 'p-type', name: 'Type P', limit_rpm: 150 }]);
  await post(
    '/api/vehicles',
    few.map(({ unit }) => ({ id: unit, platform: 'p-type' })),
  );
  await deliver(new Date(plainEnd.getTime() - 60 * DAY_MS), 50);
  await post('/api/assess', {});
  await own.client.unsafe(`
    insert into odometer_steps select key, now() - interval '50 days', 0 from vehicles limit 1;
    insert into odometer_answers select key, now(), 'changed', '', now(), 'test' from vehicles limit 1;
    insert into grade_changes select key, now() - interval '1 day', 'steady', 'watch' from vehicles limit 1;
    insert into lives (vehicle, fitted_km, source) select key, 0, 'new' from vehicles limit 1;
    insert into standings (vehicle, day, rank, grade) select key, date '2026-02-20', 1, 'steady' from vehicles limit 1`);
  await pretendMuch(own.client);
  read();
});
afterAll(async () => {
  await running.stop();
  await own.close();
  await server.stop();
  rmSync(folder, { recursive: true, force: true });
});

async function post(path: string, body: unknown, type = 'application/json'): Promise<void> {
  const answer = await calls.post(path, body, { 'content-type': type });
  if (answer.status !== 200) throw new Error(`POST ${path}: ${await answer.text()}`);
}

const deliver = (from: Date, days: number, seed = 21) =>
  post('/api/readings', toNdjson(drivePlainly(few, from, days, seed)), 'application/x-ndjson');

/** What was sent that touches tables split by vehicle: which of them, and what crosses vehicles in it. */
function judge(plans: readonly RecordedPlan[]) {
  const crossings = plans.flatMap(({ text, plan }) => {
    const plain = text.replaceAll(/\s+/g, ' ').replaceAll('"', '').trim();
    return findCrossings(plan)
      .filter((scan) => !isExcused(plain, scan))
      .map((scan) => `${scan}, in ${plain.slice(0, 300)}`);
  });
  return { tables: new Set(plans.flatMap(({ plan }) => listSplitTables(plan))), crossings };
}

const met = new Set<string>();

function isExcused(plain: string, scan: string): boolean {
  const found = exceptions.find((one) => one.statement.test(plain) && one.scan.test(scan));
  if (found !== undefined) met.add(found.what);
  return found !== undefined;
}

it('stores a delivery without looking at other vehicles', async () => {
  await deliver(new Date(plainEnd.getTime() - 10 * DAY_MS), 4);
  await deliver(new Date(plainEnd.getTime() - 10 * DAY_MS), 5, 22);
  const { tables, crossings } = judge(read());
  expect(crossings).toEqual([]);
  for (const name of ['readings', 'reading_spans', 'sender_weeks']) expect(tables).toContain(name);
});

it('builds stretches and assesses vehicles by their keys', async () => {
  await expect
    .poll(
      async () => {
        const [row] = await own.client`
        select (select count(*) from touched_vehicles) + (select count(*) from claimed_vehicles) +
          (select count(*) from vehicles v where not exists (
            select from life_weeks w where w.vehicle = v.key and w.weeks is not null)) as left`;
        return Number(row?.left);
      },
      { timeout: 90_000 },
    )
    .toBe(0);
  const { tables, crossings } = judge(read());
  expect(crossings).toEqual([]);
  for (const name of ['readings', 'stretches', 'stretch_totals', 'assessments', 'life_weeks', 'lives'])
    expect(tables).toContain(name);
});

it('shows a vehicle by its key', async () => {
  for (const path of ['', '/series', '/history'])
    expect((await calls.get(`/api/vehicles/P-01${path}`)).status).toBe(200);
  const { tables, crossings } = judge(read());
  expect(crossings).toEqual([]);
  for (const name of ['stretches', 'assessments', 'grade_changes', 'odometer_steps'])
    expect(tables).toContain(name);
});

it('shows a page of the list by the keys of its vehicles', async () => {
  expect((await calls.get('/api/ranking?limit=2')).status).toBe(200);
  const { tables, crossings } = judge(read());
  expect(crossings).toEqual([]);
  for (const name of ['assessments', 'standings', 'reading_spans']) expect(tables).toContain(name);
});

it('learns a platform from the stretches of chosen vehicles', async () => {
  await post('/api/assess', {});
  expect(judge(read()).crossings).toEqual([]);
});

it('needs every exception that is named', () => {
  expect(exceptions.map(({ what }) => what).filter((what) => !met.has(what))).toEqual([]);
});

describe('the lint itself', () => {
  const explain = async (statement: string) => {
    const [row] = await own.client.unsafe(`explain (format json) ${statement}`);
    return findCrossings((row as unknown as { 'QUERY PLAN': { Plan: PlanNode }[] })['QUERY PLAN'][0]!.Plan);
  };

  it.each([
    ['no vehicle at all', "select slip_rpm from stretches where last_at > now() - interval '1 day'"],
    ['readings of a span of time', "select * from readings where at > timestamptz '2026-02-01'"],
    ['a join with the fleet', 'select max(s.n) from vehicles v join stretches s on s.vehicle = v.key'],
    [
      'a join of which one side has it',
      'select * from stretches s join stretch_totals t using (life, stretch) where s.vehicle = 1 and t.vehicle <> 2',
    ],
    ['more vehicles than are given', 'select * from stretches where vehicle > 7 order by vehicle limit 10'],
    [
      'vehicles of a platform',
      "select 1 from assessments where vehicle in (select key from vehicles where platform = 'p')",
    ],
    ['a change of all', 'update assessments set rank = rank + 1'],
  ])('catches %s', async (_, statement) => {
    expect(await explain(statement)).not.toEqual([]);
  });

  it.each([
    ['one vehicle', 'select * from readings where vehicle = 7 order by at desc limit 1'],
    ['a list', "select * from stretches where vehicle = any('{1,2,3}'::integer[])"],
    [
      'a unit number',
      "select t.* from vehicles v join stretch_totals t on t.vehicle = v.key where v.unit = 'P-01'",
    ],
    ['work in hand', 'select r.at from touched_vehicles t join readings r on r.vehicle = t.vehicle'],
    [
      'given rows',
      "select a.rank from jsonb_to_recordset('[]') as r(vehicle integer) join assessments a on a.vehicle = r.vehicle",
    ],
    ['other tables', 'select count(*) from vehicles where not retired'],
  ])('lets %s pass', async (_, statement) => {
    expect(await explain(statement)).toEqual([]);
  });
});
