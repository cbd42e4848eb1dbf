import { setTimeout as sleep } from 'node:timers/promises';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { openDatabase } from '#db/client.ts';
import { auditStorage } from '#tests/helpers/faults/audit-storage.ts';
import { createFaultFeed } from '#tests/helpers/faults/fault-feed.ts';
import { faultRounds } from '#tests/helpers/faults/fault-rounds.ts';
import { createGateway, sendAll } from '#tests/helpers/faults/gateway.ts';
import { createPlainPostgres, type PlainPostgres } from '#tests/helpers/faults/plain-postgres.ts';
import { reportFault } from '#tests/helpers/faults/report-fault.ts';
import { type Served, serveSlipdrift } from '#tests/helpers/run-slipdrift.ts';
import { TEST_KEY, withTestKey } from '#tests/helpers/test-key.ts';

/** Ten of the program, four of its assessment, two to look on. */
const CONNECTIONS = 16;
const AT_ONCE = 40;

let database: PlainPostgres;
let program: Served;
beforeAll(async () => {
  database = await createPlainPostgres();
  await database.start({
    settings: { max_connections: String(CONNECTIONS), superuser_reserved_connections: '0' },
  });
  program = await serveSlipdrift({ DATABASE_URL: database.url, SLIPDRIFT_API_KEY: TEST_KEY });
});
afterAll(async () => {
  await program.kill('SIGTERM');
  await database.remove();
});

/** Takes every connection that the server has to give, and the program's own as well; answers how to leave. */
async function takeAll(): Promise<() => Promise<void>> {
  const others = Array.from({ length: CONNECTIONS }, () => openDatabase(database.url, { connections: 1 }));
  const cut = async () => {
    for (const { client } of others) {
      const done = await client`
        select pg_terminate_backend(pid) from pg_stat_activity
        where application_name = 'slipdrift' and pid <> pg_backend_pid() and query not like '%of the others%'`.catch(
        () => null,
      );
      if (done !== null) return;
    }
  };
  const hold = async () => {
    const held = await Promise.all(
      others.map(({ client }) => client`select 1 /* of the others */`.catch(() => null)),
    );
    return held.filter((one) => one !== null).length;
  };
  // The program asks again at once, and may be faster.
  for (let round = 0; (await hold()) < CONNECTIONS; round++) {
    if (round === 200) throw new Error('the program never let go of its last connections');
    await cut();
  }
  return async () => {
    await Promise.all(others.map(({ close }) => close(0)));
  };
}

interface Watch {
  wrong: string[];
  statuses: Map<string, number>;
  longestMs: number;
}

/** Asks for what is open to all and for a list, until told to leave off. */
async function watch(ended: () => boolean): Promise<Watch> {
  const seen: Watch = { wrong: [], statuses: new Map(), longestMs: 0 };
  const ask = async (path: string, allowed: number[]) => {
    const startedMs = Date.now();
    const answer = await fetch(`${program.url}${path}`, {
      headers: withTestKey,
      signal: AbortSignal.timeout(60_000),
    });
    await answer.text();
    seen.longestMs = Math.max(seen.longestMs, Date.now() - startedMs);
    const key = `${path} ${answer.status}`;
    seen.statuses.set(key, (seen.statuses.get(key) ?? 0) + 1);
    const retry = Number(answer.headers.get('retry-after')) > 0;
    if (!allowed.includes(answer.status) || (answer.status === 503 && path.startsWith('/api') && !retry))
      seen.wrong.push(`${key} after ${Date.now() - startedMs} ms`);
  };
  while (!ended()) {
    await Promise.all([
      ask('/health/live', [200]),
      ask('/health/ready', [200, 503]),
      ask('/metrics', [200]),
      ...Array.from({ length: 10 }, () => ask('/api/ranking', [200, 503])),
    ]);
    await sleep(50);
  }
  return seen;
}

it('lets more deliveries and reads than connections wait, or answers 503, while others have every connection too', async () => {
  const feed = createFaultFeed({ seed: 5, largeShare: 0.05 });
  const gateway = createGateway({ url: () => program.url });
  let ended = false;
  const watching = watch(() => ended);
  const make = (count: number) => Array.from({ length: count }, () => feed.next());
  // More than there are connections.
  await sendAll(gateway, make(3 * AT_ONCE * faultRounds), AT_ONCE);
  expect(gateway.statuses.get(200)).toBe(3 * AT_ONCE * faultRounds);
  // And then none.
  const leave = await takeAll();
  const sending = sendAll(gateway, make(AT_ONCE), AT_ONCE);
  await sleep(3000);
  await leave();
  const startedMs = Date.now();
  await sending;
  const againMs = [Date.now() - startedMs];
  ended = true;
  const seen = await watching;

  const assessed = await fetch(`${program.url}/api/assess`, { method: 'POST', headers: withTestKey });
  expect(assessed.status).toBe(200);
  const { client, close } = openDatabase(database.url, { connections: 1 });
  const audit = await auditStorage(client, gateway.acknowledged);
  await close();
  reportFault({
    fault: 'no connection left',
    made: `${AT_ONCE} deliveries and 10 reads at once; then others hold all ${CONNECTIONS} connections for 3 s`,
    tried: gateway.acknowledged.length,
    ...audit,
    againMs,
  });
  expect({ deliveries: gateway.wrong, watched: seen.wrong }).toEqual({ deliveries: [], watched: [] });
  expect(gateway.statuses.get(503) ?? 0, JSON.stringify([...gateway.statuses])).toBeGreaterThan(0);
  expect(gateway.statuses.get(0)).toBeUndefined();
  expect(seen.longestMs).toBeLessThan(45_000);
  expect(audit).toMatchObject({ lost: 0, twice: 0, disagreements: [] });
});
