import { pino } from 'pino';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { ReadingInput } from '#server/contract/readings.ts';
import { replayRequest } from '#server/contract/replay.ts';
import { startSlipdrift } from '#server/main.ts';
import { makePlan } from '#server/services/replay/make-plan.ts';
import { replayVehicles } from '#server/services/replay/run-replay.ts';
import { readSettings } from '#server/settings.ts';
import { createTestDatabase, type TestDatabase } from '#tests/helpers/database.ts';
import { drivePlainly } from '#tests/helpers/drive-plainly.ts';
import { toNdjson } from '#tests/helpers/make-reading.ts';
import { plainEnd, plainFleet } from '#tests/helpers/send-plain-fleet.ts';
import { callsTo, type TestApp } from '#tests/helpers/start-app.ts';
import { TEST_KEY } from '#tests/helpers/test-key.ts';

const DAY_MS = 86_400_000;
const startMs = plainEnd.getTime() - 100 * DAY_MS;
const momentOf = (day: number) => new Date(startMs + day * DAY_MS);
const nameOf = (day: number) => momentOf(day).toISOString().slice(0, 10);
const dayOf = ({ at }: ReadingInput) => Math.floor((Date.parse(at) - startMs) / DAY_MS);
/** The first program ends here, and so does the period that is run again. */
const CUT = 80;

const readings = drivePlainly(plainFleet, momentOf(0), 100, 21);
const isQuiet = (one: ReadingInput) => one.vehicle === 'P-07' && dayOf(one) >= 60;
const isOld = (one: ReadingInput) => one.vehicle === 'P-04' && dayOf(one) < 20;
const isLate = (one: ReadingInput) =>
  (one.vehicle === 'P-02' && dayOf(one) >= 70 && dayOf(one) <= 75) ||
  (one.vehicle === 'Q-02' && dayOf(one) >= 72 && dayOf(one) <= 74);
const failed = ['P-03', 'P-05', 'P-06', 'P-08', 'Q-02', 'Q-04', 'Q-05', 'Q-06', 'Q-07', 'Q-08'];

let database: TestDatabase;
beforeAll(async () => {
  database = await createTestDatabase();
  await runAt(momentOf(CUT), async (post) => {
    await post('/api/platforms', [
      { id: 'p-type', name: 'Type P', limit_rpm: 150 },
      { id: 'q-type', name: 'Type Q', limit_rpm: 160 },
    ]);
    const platformOf = (unit: string) => (unit.startsWith('P') ? 'p-type' : 'q-type');
    await post(
      '/api/vehicles',
      plainFleet.map(({ unit }) => ({ id: unit, platform: platformOf(unit) })),
    );
    await post('/api/lives', plainFleet.flatMap(livesOf));
    await send(
      post,
      readings.filter((one) => dayOf(one) < CUT && ![isLate, isQuiet, isOld].some((is) => is(one))),
    );
  });
  // As if history had been loaded on day 40 and all since had come in time, but for three days of P-04, 4 to 6 days late.
  await database.client`update readings set arrived_at = case
    when at < ${momentOf(40)} then ${momentOf(40)}::timestamptz
    when at >= ${momentOf(50)} and at < ${momentOf(53)} and vehicle = (select key from vehicles where unit = 'P-04')
      then ${momentOf(56.5)}::timestamptz end`;
});
afterAll(() => database?.drop());

type Post = (path: string, body: unknown, type?: string) => Promise<void>;

async function runAt(now: Date, work: (post: Post) => Promise<void>): Promise<void> {
  const settings = { ...readSettings({}), databaseUrl: database.url, port: 0, apiKey: TEST_KEY };
  const running = await startSlipdrift(settings, pino({ level: 'silent' }), {
    clockShiftMs: now.getTime() - Date.now(),
  });
  const calls: Pick<TestApp, 'post'> = callsTo(running.url);
  try {
    await work(async (path, body, type = 'application/json') => {
      const answer = await calls.post(path, body, { 'content-type': type });
      if (answer.status !== 200) throw new Error(`POST ${path}: ${await answer.text()}`);
    });
  } finally {
    await running.stop();
  }
}

async function send(post: Post, some: ReadingInput[]): Promise<void> {
  await post('/api/readings', toNdjson(some), 'application/x-ndjson');
  await post('/api/assess', {});
}

/** Ten converters failed from day 15 to day 45, enough for the platforms' lives to be fitted. */
function livesOf({ unit, firstKm, kmPerDay }: (typeof plainFleet)[number], i: number) {
  const first = { vehicle: unit, fitted_km: 0, source: 'original' };
  if (!failed.includes(unit)) return [first];
  const km = Math.round(firstKm + kmPerDay * (15 + 2 * i));
  return [
    { ...first, removed_km: km, ended: 'failed' },
    { vehicle: unit, fitted_km: km, source: 'new' },
  ];
}

/** Every figure of every vehicle on every day. */
async function runAgain(from: number, to: number, platforms: string[] = []) {
  const request = replayRequest.parse({ from: nameOf(from), to: nameOf(to), platforms });
  const vehicles = await replayVehicles(
    database.db,
    await makePlan({ db: database.db }, request, null),
    () => {},
  );
  return Object.fromEntries(
    vehicles.map(({ unit, days }) => [
      unit,
      Object.fromEntries(Object.entries(days).map(([name, values]) => [name, [...values]])),
    ]),
  );
}

it('is not changed by readings, ends of lives and retirements that come later, to the last digit', async () => {
  const before = await runAgain(50, CUT - 1);
  await runAt(plainEnd, async (post) => {
    await post('/api/lives', [
      {
        vehicle: 'Q-03',
        fitted_km: 0,
        source: 'original',
        removed_km: 99_000,
        removed_at: `${nameOf(87)}T12:00:00Z`,
        ended: 'failed',
      },
      { vehicle: 'Q-03', fitted_km: 99_000, fitted_at: `${nameOf(87)}T12:00:00Z`, source: 'rebuilt' },
    ]);
    await post('/api/vehicles', [{ id: 'P-07', retired: true }]);
    await send(
      post,
      readings.filter((one) => (dayOf(one) >= CUT || isLate(one)) && !isQuiet(one)),
    );
  });
  expect(before['P-07']?.km?.at(-1)).toBeGreaterThan(100_000);
  expect(before['Q-01']?.suddenChance?.at(-1)).toBeGreaterThan(0);
  expect(await runAgain(50, CUT - 1)).toEqual(before);
});

it('knows late readings from when they arrived, though older history is loaded after them', async () => {
  const before = await runAgain(50, 57, ['p-type']);
  await runAt(plainEnd, (post) => send(post, readings.filter(isOld)));
  const after = await runAgain(50, 57, ['p-type']);
  expect(after['P-04']?.quietDays).toEqual(before['P-04']?.quietDays);
  expect(after['P-04']?.km).toEqual(before['P-04']?.km);
  expect(after['P-04']?.levelRpm).not.toEqual(before['P-04']?.levelRpm);
});
