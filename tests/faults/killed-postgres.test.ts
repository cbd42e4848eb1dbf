import { setTimeout as sleep } from 'node:timers/promises';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { openDatabase } from '#db/client.ts';
import { auditStorage } from '#tests/helpers/faults/audit-storage.ts';
import { createFaultFeed } from '#tests/helpers/faults/fault-feed.ts';
import { faultRounds } from '#tests/helpers/faults/fault-rounds.ts';
import { createGateway } from '#tests/helpers/faults/gateway.ts';
import { createPlainPostgres, type PlainPostgres } from '#tests/helpers/faults/plain-postgres.ts';
import { reportFault } from '#tests/helpers/faults/report-fault.ts';
import { type Served, serveSlipdrift } from '#tests/helpers/run-slipdrift.ts';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { TEST_KEY, withTestKey } from '#tests/helpers/test-key.ts';

const HARMS = ['postmaster', 'immediate shutdown', 'fast shutdown', 'one backend'] as const;
type Harm = (typeof HARMS)[number];
const ROUNDS = 8 * faultRounds;
const TIMEOUT = 150_000 * faultRounds;
/** An answer that takes longer will not come. */
const ANSWER_MS = 30_000;

let database: PlainPostgres;
let program: Served;
beforeAll(async () => {
  database = await createPlainPostgres();
  await database.start();
  program = await serveSlipdrift({ DATABASE_URL: database.url, SLIPDRIFT_API_KEY: TEST_KEY });
});
afterAll(async () => {
  await program.kill('SIGTERM');
  await database.remove();
});

const random = seededRandom(20_260_302);

/** Brings the server down, or one of its sessions, and up again after a while. */
async function harm(how: Harm): Promise<void> {
  if (how === 'one backend') {
    const backends = await database.backends();
    const one = backends[Math.floor(random.uniform() * backends.length)];
    // PostgreSQL ends every session and recovers when one of its processes is killed: it may have harmed shared memory.
    if (one !== undefined) process.kill(one, 'SIGKILL');
    return;
  }
  await database.end(how === 'postmaster' ? 'killed' : how === 'fast shutdown' ? 'fast' : 'immediate');
  await sleep(200 + random.uniform() * 800);
  await database.start();
}

/** Asks the program, and fails with the path where no answer comes. */
async function call(path: string, options: RequestInit = {}): Promise<Response> {
  const signal = AbortSignal.timeout(ANSWER_MS);
  return fetch(`${program.url}${path}`, { ...options, headers: withTestKey, signal }).catch((cause) => {
    throw new Error(`${path} was not answered: ${cause}`, { cause });
  });
}

/** Until a call that needs the database is answered. */
async function waitUntilServed(): Promise<void> {
  await expect
    .poll(async () => (await call('/health/ready')).status, { timeout: 30_000, interval: 20 })
    .toBe(200);
}

it('answers 503 while PostgreSQL is away, goes on by itself, and keeps each acknowledged line once', {
  timeout: TIMEOUT,
}, async () => {
  const feed = createFaultFeed({ seed: 2 });
  const gateway = createGateway({ url: () => program.url });
  const read = { wrong: [] as string[], statuses: new Map<number, number>() };
  let ended = false;
  const deliver = async () => {
    while (!ended) await gateway.send(feed.next());
  };
  const ask = async () => {
    while (!ended) {
      const answer = await call('/api/ranking');
      const text = await answer.text();
      read.statuses.set(answer.status, (read.statuses.get(answer.status) ?? 0) + 1);
      const retry = Number(answer.headers.get('retry-after')) > 0;
      if (answer.status !== 200 && !(answer.status === 503 && retry))
        read.wrong.push(`${answer.status} ${text.slice(0, 300)}`);
      const live = await call('/health/live');
      if (live.status !== 200) read.wrong.push(`/health/live ${live.status}`);
      await sleep(30);
    }
  };
  const load = Promise.all([deliver(), deliver(), deliver(), deliver(), ask()]);
  const againMs: Record<Harm, number[]> = {
    postmaster: [],
    'immediate shutdown': [],
    'fast shutdown': [],
    'one backend': [],
  };
  for (let round = 0; round < ROUNDS; round++) {
    await sleep(300 + random.uniform() * 700);
    const how = HARMS[round % HARMS.length] ?? HARMS[0];
    const startedMs = Date.now();
    await harm(how);
    await waitUntilServed();
    againMs[how].push(Date.now() - startedMs);
  }
  await sleep(500);
  ended = true;
  await load;

  expect(program.child.exitCode, program.output().slice(-2000)).toBeNull();
  // A call may still meet a connection that the last harms ended: it is told so, and asks again.
  const assess = async () => {
    const answer = await call('/api/assess', { method: 'POST' });
    if (answer.status === 503) expect(Number(answer.headers.get('retry-after'))).toBeGreaterThan(0);
    return answer.status;
  };
  await expect.poll(assess, { interval: 250, timeout: 20_000 }).toBe(200);
  const { client, close } = openDatabase(database.url, { connections: 1 });
  const audit = await auditStorage(client, gateway.acknowledged);
  await close();
  for (const how of HARMS)
    reportFault({
      fault: 'PostgreSQL of DATABASE_URL killed',
      made: `${how}, ${againMs[how].length} times under load`,
      tried: gateway.acknowledged.length,
      ...audit,
      againMs: againMs[how],
    });
  expect({ deliveries: gateway.wrong, reads: read.wrong }).toEqual({ deliveries: [], reads: [] });
  expect(audit).toMatchObject({ lost: 0, twice: 0, disagreements: [] });
  expect(gateway.statuses.get(503) ?? 0).toBeGreaterThan(0);
  expect(gateway.statuses.get(0)).toBeUndefined();
});
