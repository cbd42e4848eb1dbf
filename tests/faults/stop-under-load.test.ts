import { type ClientRequest, request } from 'node:http';
import { setTimeout as sleep } from 'node:timers/promises';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { openDatabase } from '#db/client.ts';
import { removeStorage } from '#db/embedded/remove-storage.ts';
import { auditStorage } from '#tests/helpers/faults/audit-storage.ts';
import { createFaultFeed } from '#tests/helpers/faults/fault-feed.ts';
import { faultRounds } from '#tests/helpers/faults/fault-rounds.ts';
import { createGateway, sendAll } from '#tests/helpers/faults/gateway.ts';
import { createPlainPostgres } from '#tests/helpers/faults/plain-postgres.ts';
import { reportFault } from '#tests/helpers/faults/report-fault.ts';
import { type Served, serveSlipdrift } from '#tests/helpers/run-slipdrift.ts';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { makeTemporaryFolder } from '#tests/helpers/temporary-folder.ts';
import { TEST_KEY, withTestKey } from '#tests/helpers/test-key.ts';

const STOP_MS = 10_000;
const ROUNDS = 3 * faultRounds;

let folder: string;
let program: Served | undefined;
beforeEach(() => {
  folder = makeTemporaryFolder();
});
afterEach(async () => {
  if (program?.child.exitCode === null) await program.kill('SIGTERM');
  removeStorage(folder);
});

const serve = () => serveSlipdrift({ SLIPDRIFT_DATA: folder, SLIPDRIFT_API_KEY: TEST_KEY });
const openOwn = () =>
  openDatabase(`postgres://slipdrift@localhost/slipdrift?host=${encodeURIComponent(`${folder}/socket`)}`);

/** A delivery that begins and never ends. */
function stall(url: string): ClientRequest {
  const sending = request(`${url}/api/readings`, {
    method: 'POST',
    headers: { ...withTestKey, 'content-type': 'application/x-ndjson' },
  });
  sending.on('error', () => {});
  sending.write('{"vehicle":"');
  return sending;
}

async function stopInTime(served: Served): Promise<number> {
  const startedMs = Date.now();
  expect(await served.kill('SIGTERM'), served.output().slice(-1500)).toBe(0);
  const tookMs = Date.now() - startedMs;
  expect(tookMs).toBeLessThan(STOP_MS);
  return tookMs;
}

it('ends within 10 s with large deliveries in flight, stalled senders and an assessment, and loses nothing acknowledged', {
  timeout: 120_000 * faultRounds,
}, async () => {
  const random = seededRandom(20_260_309);
  const feed = createFaultFeed({ seed: 11, largeShare: 0.6, largest: 20_000, vehicles: 120 });
  let url = '';
  const gateway = createGateway({ url: () => url });
  const tookMs: number[] = [];
  for (let round = 0; round < ROUNDS; round++) {
    program = await serve();
    url = program.url;
    const deliveries = Array.from({ length: 14 }, () => feed.next());
    const sending = sendAll(gateway, deliveries, 5);
    const stalled = [stall(url), stall(url)];
    await sleep(300 + random.uniform() * 1200);
    const assessing = fetch(`${url}/api/assess`, { method: 'POST', headers: withTestKey }).catch(() => {});
    await sleep(random.uniform() * 300);
    tookMs.push(await stopInTime(program));
    for (const one of stalled) one.destroy();
    await assessing;
    program = await serve();
    url = program.url;
    await sending;
    tookMs.push(await stopInTime(program));
  }

  program = await serve();
  url = program.url;
  await gateway.send(feed.next());
  const assessed = await fetch(`${url}/api/assess`, { method: 'POST', headers: withTestKey });
  expect(assessed.status).toBe(200);
  const { client, close } = openOwn();
  const audit = await auditStorage(client, gateway.acknowledged);
  await close();
  reportFault({
    fault: 'SIGTERM under load, own PostgreSQL',
    made: `${ROUNDS} times with 5 large deliveries, 2 stalled senders and an assessment (the time is that of the stop)`,
    tried: gateway.acknowledged.length,
    ...audit,
    againMs: tookMs,
  });
  expect(gateway.wrong).toEqual([]);
  expect(audit).toMatchObject({ lost: 0, twice: 0, disagreements: [] });
});

it('ends within 10 s also when PostgreSQL has stopped answering', async () => {
  const database = await createPlainPostgres();
  await database.start();
  program = await serveSlipdrift({ DATABASE_URL: database.url, SLIPDRIFT_API_KEY: TEST_KEY });
  const { url } = program;
  const feed = createFaultFeed({ seed: 12, largeShare: 0.5, vehicles: 60 });
  const gateway = createGateway({ url: () => url });
  await sendAll(gateway, [feed.next(), feed.next(), feed.next()], 3);
  const assessing = fetch(`${url}/api/assess`, { method: 'POST', headers: withTestKey }).catch(() => {});
  await sleep(200);
  const backends = await database.backends();
  for (const pid of backends) process.kill(pid, 'SIGSTOP');
  try {
    const hanging = Array.from({ length: 6 }, () =>
      fetch(`${url}/api/ranking`, { headers: withTestKey }).catch(() => {}),
    );
    await sleep(300);
    await stopInTime(program);
    await Promise.all([assessing, ...hanging]);
  } finally {
    for (const pid of backends) process.kill(pid, 'SIGCONT');
  }
  const { client, close } = openDatabase(database.url, { connections: 1 });
  const audit = await auditStorage(client, gateway.acknowledged);
  await close();
  await database.remove();
  expect(audit).toMatchObject({ lost: 0, twice: 0 });
});
