import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { openDatabase } from '#db/client.ts';
import { removeStorage } from '#db/embedded/remove-storage.ts';
import { auditStorage } from '#tests/helpers/faults/audit-storage.ts';
import { createFaultFeed } from '#tests/helpers/faults/fault-feed.ts';
import { faultRounds } from '#tests/helpers/faults/fault-rounds.ts';
import { findWatchers } from '#tests/helpers/faults/find-watchers.ts';
import { createGateway, sendAll } from '#tests/helpers/faults/gateway.ts';
import { reportFault } from '#tests/helpers/faults/report-fault.ts';
import { findFreePort } from '#tests/helpers/find-free-port.ts';
import { type Served, serveSlipdrift } from '#tests/helpers/run-slipdrift.ts';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { makeTemporaryFolder } from '#tests/helpers/temporary-folder.ts';
import { TEST_KEY, withTestKey } from '#tests/helpers/test-key.ts';

/** What else is killed together with the program: nothing, so that its watcher stops the server; and so on. */
const HARMS = [
  'the program',
  'program and watcher: the server lives on',
  'program, watcher and server',
] as const;
const ROUNDS = 9 * faultRounds;
const TIMEOUT = 180_000 * faultRounds;
const DELIVERIES = 23;

let folder: string;
let port: number;
let program: Served | undefined;
beforeAll(async () => {
  folder = makeTemporaryFolder();
  port = await findFreePort();
});
afterAll(async () => {
  await program?.kill('SIGTERM');
  removeStorage(folder);
});

const serve = (): Promise<Served> =>
  serveSlipdrift({ SLIPDRIFT_DATA: folder, PORT: String(port), SLIPDRIFT_API_KEY: TEST_KEY });

it('keeps each acknowledged line once when it is killed at any moment of 200 deliveries', {
  timeout: TIMEOUT,
}, async () => {
  const random = seededRandom(20_260_301);
  const feed = createFaultFeed({ seed: 1 });
  const gateway = createGateway({ url: () => `http://127.0.0.1:${port}` });
  const againMs: Record<(typeof HARMS)[number], number[]> = {
    'the program': [],
    'program and watcher: the server lives on': [],
    'program, watcher and server': [],
  };
  program = await serve();
  for (let round = 0; round < ROUNDS; round++) {
    const deliveries = Array.from({ length: DELIVERIES }, () => feed.next());
    const sending = sendAll(gateway, deliveries, 4);
    await sleep(20 + random.uniform() * 700);
    const harm = HARMS[round % HARMS.length] ?? HARMS[0];
    const startedMs = Date.now();
    const server = Number.parseInt(readFileSync(join(folder, 'postgres/postmaster.pid'), 'utf8'), 10);
    if (harm !== 'the program') for (const pid of findWatchers(folder)) process.kill(pid, 'SIGKILL');
    if (harm === 'program, watcher and server') process.kill(server, 'SIGKILL');
    expect(await program.kill('SIGKILL')).toBe('SIGKILL');
    program = await serve();
    againMs[harm].push(Date.now() - startedMs);
    await sending;
  }

  expect(gateway.wrong).toEqual([]);
  expect(gateway.acknowledged).toHaveLength(ROUNDS * DELIVERIES);
  const assessed = await fetch(`${program.url}/api/assess`, { method: 'POST', headers: withTestKey });
  expect(assessed.status).toBe(200);
  const socket = encodeURIComponent(join(folder, 'socket'));
  const { client, close } = openDatabase(`postgres://slipdrift@localhost/slipdrift?host=${socket}`);
  const audit = await auditStorage(client, gateway.acknowledged);
  const [left] = await client`
    select (select count(*) from touched_vehicles) + (select count(*) from claimed_vehicles) as n`;
  await close();
  expect(await program.kill('SIGTERM')).toBe(0);
  for (const harm of HARMS)
    reportFault({
      fault: 'program killed, own PostgreSQL',
      made: `SIGKILL to ${harm}, ${againMs[harm].length} times`,
      tried: gateway.acknowledged.length,
      ...audit,
      againMs: againMs[harm],
    });
  expect(audit).toMatchObject({ lost: 0, twice: 0, disagreements: [] });
  expect(left).toEqual({ n: 0 });
  // Kills that met nothing would prove nothing.
  expect(gateway.statuses.get(0) ?? 0).toBeGreaterThan(ROUNDS);
});
