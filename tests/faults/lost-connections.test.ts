import { createServer } from 'node:net';
import { setTimeout as sleep } from 'node:timers/promises';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { type OpenedDatabase, openDatabase } from '#db/client.ts';
import { faultRounds } from '#tests/helpers/faults/fault-rounds.ts';
import { createPlainPostgres, type PlainPostgres } from '#tests/helpers/faults/plain-postgres.ts';
import { seededRandom } from '#tests/helpers/seeded-random.ts';

let server: PlainPostgres;
beforeAll(async () => {
  server = await createPlainPostgres();
  await server.start();
});
afterAll(() => server.remove());

const open = (url = server.url): OpenedDatabase => openDatabase(url, { connections: 1 });

const outcome = (promise: Promise<unknown>) =>
  promise.then(
    () => 'done',
    (error) => error.code,
  );

/** Ends every session, and waits until it is gone. */
async function endSessions(): Promise<void> {
  for (const pid of await server.backends()) process.kill(pid, 'SIGTERM');
  await expect.poll(() => server.backends()).toEqual([]);
}

it('keeps what a lost transaction still asks out of the transaction of another', async () => {
  const { client, close } = open();
  await client`create table apart (who text)`;
  const [goOn, inside, leave] = [gate(), gate(), gate()];
  const lost = client.begin(async (sql) => {
    await sql`insert into apart values ('lost')`;
    await goOn.passed;
    await sql`insert into apart values ('lost')`;
  });
  const told = outcome(lost);
  await expect.poll(() => server.backends()).toHaveLength(1);
  await endSessions();
  expect(await told).toBe('CONNECTION_CLOSED');

  const other = client.begin(async (sql) => {
    await sql`insert into apart values ('other')`;
    inside.open();
    await leave.passed;
    await sql`insert into apart values ('other')`;
  });
  await inside.passed;
  goOn.open();
  await sleep(100);
  leave.open();
  await other;
  expect(await client`select who from apart`).toEqual([{ who: 'other' }, { who: 'other' }]);
  await close(1);
});

it('answers on a connection made again after a rollback was asked between its error and its end', async () => {
  const { client, close } = open();
  const [row] = await client`select pg_backend_pid() as pid`;
  const lost = client.begin(async (sql) => {
    await sql`select 1`;
    process.kill(row?.pid, 'SIGKILL');
    // The thread must not hear of it before it writes again.
    const untilMs = performance.now() + 300;
    while (performance.now() < untilMs);
    await sql`select 2`;
  });
  expect(await outcome(lost)).not.toBe('done');
  await expect.poll(() => outcome(client`select 1`)).toBe('done');
  const answers = Promise.all([1, 2, 3].map((n) => client`select ${n}::int as n`));
  expect((await answers).map(([one]) => one?.n)).toEqual([1, 2, 3]);
  await close(1);
});

it('says that the connection was closed where one is accepted and ended at once', async () => {
  let accepted = 0;
  const proxy = createServer((socket) => {
    accepted += 1;
    socket.end();
  });
  await new Promise<void>((settle) => proxy.listen(0, '127.0.0.1', settle));
  const { port } = proxy.address() as { port: number };
  const { client, close } = open(`postgres://somebody@127.0.0.1:${port}/base`);
  expect(await outcome(client`select 1`)).toBe('CONNECTION_CLOSED');
  expect(accepted).toBe(1);
  await close(1);
  proxy.close();
});

it(
  'ends every query, and keeps each transaction whole, while sessions are ended under load',
  async () => {
    const random = seededRandom(7);
    const { client, close } = open();
    await client`create table whole (who int)`;
    const committed: number[] = [];
    const outcomes = new Map<string, number>();
    let [ended, latest] = [false, 0];
    const write = async (who: number) => {
      await client.begin(async (sql) => {
        await sql`insert into whole values (${who})`;
        await sleep(40 * random.uniform());
        await Promise.all([sql`insert into whole values (${who})`, sql`insert into whole values (${who})`]);
      });
      committed.push(who);
    };
    const read = () => Promise.all([1, 2, 3, 4].map((n) => client`select ${n}::int as n`));
    const work = async () => {
      while (!ended) {
        latest += 1;
        const how = await outcome(random.uniform() < 0.5 ? write(latest) : read());
        outcomes.set(how, (outcomes.get(how) ?? 0) + 1);
      }
    };
    const load = Promise.all(Array.from({ length: 4 }, work));
    const untilMs = Date.now() + 5_000 * faultRounds;
    while (Date.now() < untilMs) {
      await sleep(100 * random.uniform());
      for (const pid of await server.backends()) process.kill(pid, 'SIGTERM');
    }
    ended = true;
    await load;
    expect(outcomes.get('done')).toBeGreaterThan(10);
    expect(outcomes.get('CONNECTION_CLOSED')).toBeGreaterThan(10);
    const stored = await client`select who, count(*) as n from whole group by who`;
    // Of a transaction whose answer was lost nobody knows whether it was stored; whole it is in any case.
    expect(stored.filter(({ n }) => n !== 3)).toEqual([]);
    const known = new Set(stored.map(({ who }) => who));
    expect(committed.filter((who) => !known.has(who))).toEqual([]);
    await close(1);
  },
  60_000 * faultRounds,
);

/** Lets those who wait for it pass once it is opened. */
function gate(): { passed: Promise<void>; open: () => void } {
  let open = () => {};
  const passed = new Promise<void>((settle) => {
    open = settle;
  });
  return { passed, open };
}
