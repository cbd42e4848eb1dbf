import { pino } from 'pino';
import { afterAll, afterEach, beforeAll, expect, it, vi } from 'vitest';
import type { Receipt } from '#server/contract/receipts.ts';
import { type Running, startSlipdrift } from '#server/main.ts';
import { readSettings } from '#server/settings.ts';
import { createTestDatabase, type TestDatabase } from '#tests/helpers/database.ts';
import { auditStorage } from '#tests/helpers/faults/audit-storage.ts';
import { createFaultFeed, type FaultDelivery } from '#tests/helpers/faults/fault-feed.ts';
import { createGateway, sendAll } from '#tests/helpers/faults/gateway.ts';
import { reportFault } from '#tests/helpers/faults/report-fault.ts';
import { TEST_KEY, withTestKey } from '#tests/helpers/test-key.ts';

const DAY_MS = 86_400_000;

let database: TestDatabase;
let running: Running;
beforeAll(async () => {
  database = await createTestDatabase();
});
afterEach(() => {
  vi.useRealTimers();
});
afterAll(() => database.drop());

const start = (clockShiftMs: number) =>
  startSlipdrift(
    { ...readSettings({ SLIPDRIFT_API_KEY: TEST_KEY }), databaseUrl: database.url, port: 0 },
    pino({ level: 'silent' }),
    { clockShiftMs },
  );
const get = (path: string) => fetch(`${running.url}${path}`, { headers: withTestKey });
const assess = async () => {
  const answer = await fetch(`${running.url}/api/assess`, { method: 'POST', headers: withTestKey });
  expect(answer.status).toBe(200);
  return Date.parse(((await answer.json()) as { as_of: string }).as_of);
};

it('loses nothing and doubles nothing when the clock goes back by a day, as it runs and across a restart', async () => {
  const feed = createFaultFeed({ seed: 10, largeShare: 0.1, vehicles: 12 });
  const gateway = createGateway({ url: () => running.url });
  const take = (count: number) => Array.from({ length: count }, () => feed.next());
  const asOf: { saysMs: number; clockMs: number }[] = [];
  const repeated: FaultDelivery[] = [];
  const live = async (clockMs: () => number) => {
    const fresh = take(12);
    await sendAll(gateway, fresh, 3);
    // The same again, and what came before the clock was changed.
    await sendAll(gateway, repeated, 3);
    repeated.push(...fresh.filter(({ key }) => key !== null).slice(0, 4));
    asOf.push({ saysMs: await assess(), clockMs: clockMs() });
  };

  running = await start(0);
  await live(() => Date.now());
  // Set back while it runs; timers go on.
  vi.useFakeTimers({ toFake: ['Date'] });
  const realMs = performance.timeOrigin + performance.now();
  vi.setSystemTime(realMs - DAY_MS);
  await live(() => Date.now());
  await running.stop();
  // Set back across a restart, and right again.
  running = await start(0);
  await live(() => Date.now());
  vi.useRealTimers();
  await running.stop();
  running = await start(-DAY_MS);
  await live(() => Date.now() - DAY_MS);
  await running.stop();
  running = await start(0);
  await live(() => Date.now());

  const audit = await auditStorage(database.client, gateway.acknowledged);
  reportFault({
    fault: 'clock set back by a day',
    made: 'as it runs, across two restarts, and right again; keys from before sent again',
    tried: gateway.acknowledged.length,
    ...audit,
  });
  expect(gateway.wrong).toEqual([]);
  expect(audit).toMatchObject({ lost: 0, twice: 0, disagreements: [] });
  for (const { saysMs, clockMs } of asOf) expect(Math.abs(saysMs - clockMs)).toBeLessThan(60_000);

  // A key brings the same receipt whatever the clock said, and each receipt is found with the time it was told.
  const byKey = new Map<string, Set<string>>();
  for (const { delivery, reply } of gateway.acknowledged)
    if (delivery.key !== null)
      byKey.set(delivery.key, (byKey.get(delivery.key) ?? new Set()).add(reply.receipt));
  for (const receipts of byKey.values()) expect(receipts.size).toBe(1);
  const ids = await database.client`select id, at from receipts order by at`;
  expect(new Set(ids.map(({ id }) => id)).size).toBe(ids.length);
  for (const { id, at } of ids.filter((_, i) => i % 7 === 0)) {
    const found = (await (await get(`/api/receipts/${id}`)).json()) as Receipt;
    expect(found).toMatchObject({ receipt: id, at: at.toISOString(), complete: true });
  }
  const [ahead] =
    await database.client`select count(*) as n from assessments where as_of > now() + interval '1 minute'`;
  expect(ahead).toEqual({ n: 0 });
  const list = await get('/api/ranking');
  expect(list.status).toBe(200);
  await running.stop();
});
