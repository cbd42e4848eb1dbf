import { type ClientRequest, request } from 'node:http';
import { connect } from 'node:net';
import { setTimeout as sleep } from 'node:timers/promises';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { type BrokenDelivery, brokenDelivery } from '#server/contract/receipts.ts';
import { listen } from '#server/listen.ts';
import { createTestDatabase, type TestDatabase } from '#tests/helpers/database.ts';
import { auditStorage } from '#tests/helpers/faults/audit-storage.ts';
import { createFaultFeed, type FaultDelivery } from '#tests/helpers/faults/fault-feed.ts';
import { createGateway, sendAll } from '#tests/helpers/faults/gateway.ts';
import { reportFault } from '#tests/helpers/faults/report-fault.ts';
import { type Served, serveSlipdrift } from '#tests/helpers/run-slipdrift.ts';
import { TEST_KEY, withTestKey } from '#tests/helpers/test-key.ts';

const IDLE_S = 4;

let database: TestDatabase;
let program: Served;
beforeAll(async () => {
  database = await createTestDatabase();
  program = await serveSlipdrift({
    DATABASE_URL: database.url,
    SLIPDRIFT_API_KEY: TEST_KEY,
    SLIPDRIFT_BODY_IDLE_S: String(IDLE_S),
  });
});
afterAll(async () => {
  await program.kill('SIGTERM');
  await database.drop();
});

interface Answer {
  status: number;
  text: string;
  afterMs: number;
}

function begin({ key }: FaultDelivery): { sending: ClientRequest; answered: Promise<Answer> } {
  const startedMs = Date.now();
  const sending = request(`${program.url}/api/readings`, {
    method: 'POST',
    headers: {
      ...withTestKey,
      'content-type': 'application/x-ndjson',
      ...(key === null ? {} : { 'idempotency-key': key }),
    },
  });
  const answered = new Promise<Answer>((settle, fail) => {
    sending.on('error', fail);
    sending.on('response', (response) => {
      let text = '';
      response.setEncoding('utf8').on('data', (part) => {
        text += part;
      });
      response.on('end', () =>
        settle({ status: response.statusCode ?? 0, text, afterMs: Date.now() - startedMs }),
      );
    });
  });
  answered.catch(() => {});
  return { sending, answered };
}

it('gives up senders that stop midway, keeps what was complete, and takes the whole once when it comes again', async () => {
  const feed = createFaultFeed({ seed: 6, largeShare: 0.3, largest: 12_000 });
  const stalled = Array.from({ length: 24 }, () => feed.next());
  const gateway = createGateway({ url: () => program.url });
  const begun = stalled.map((delivery) => {
    const one = begin(delivery);
    one.sending.write(delivery.body.slice(0, -10));
    return one;
  });
  // Others do not notice: no stalled sender holds a connection to the database.
  const countHeld = async () =>
    Number(
      (
        await database.client`
          select count(*) as n from pg_stat_activity
          where datname = current_database() and state like 'idle in transaction%' and pid <> pg_backend_pid()`
      )[0]?.n,
    );
  await sleep(500);
  await expect.poll(countHeld, { timeout: IDLE_S * 800, interval: 20 }).toBe(0);
  const others = Array.from({ length: 10 }, () => feed.next()).map((one) => ({ ...one, key: null }));
  await sendAll(gateway, others, 2);
  const answers = await Promise.all(begun.map(({ answered }) => answered));
  for (const { status, text, afterMs } of answers) {
    expect(status, text).toBe(408);
    const document: BrokenDelivery = brokenDelivery.parse(JSON.parse(text));
    expect(document.code).toBe('body_stalled');
    expect(afterMs).toBeGreaterThanOrEqual(IDLE_S * 1000 - 50);
    expect(afterMs).toBeLessThan(IDLE_S * 1000 + 15_000);
  }
  const [incomplete] = await database.client`select count(*) as n from receipts where not complete`;
  const kept = answers.filter(({ text }) => brokenDelivery.parse(JSON.parse(text)).delivery !== undefined);
  expect(incomplete).toEqual({ n: kept.length });
  expect(kept.length).toBeGreaterThan(15);

  await sendAll(gateway, stalled, 4);
  const audit = await auditStorage(database.client, gateway.acknowledged);
  reportFault({
    fault: 'sender stalls',
    made: `24 at once stop 10 bytes before the end, given up after ${IDLE_S} s (60 s unless set)`,
    tried: gateway.acknowledged.length,
    ...audit,
  });
  expect(gateway.wrong).toEqual([]);
  expect(audit).toMatchObject({ lost: 0, twice: 0, disagreements: [] });
});

it('waits for a sender that is only slow', async () => {
  const feed = createFaultFeed({ seed: 7, largeShare: 0, from: 1_000_000 });
  const delivery = feed.next();
  const { sending, answered } = begin(delivery);
  const pieces = 12;
  const size = Math.ceil(delivery.body.length / pieces);
  for (let at = 0; at < delivery.body.length; at += size) {
    sending.write(delivery.body.slice(at, at + size));
    await sleep(IDLE_S * 150);
  }
  sending.end();
  const { status, text, afterMs } = await answered;
  expect(status, text).toBe(200);
  expect(afterMs).toBeGreaterThan(1.5 * IDLE_S * 1000);
  expect(JSON.parse(text)).toMatchObject({
    stored: delivery.numbers.length,
    refused: delivery.refused.length,
  });
});

it.each([
  ['in its header', 'POST /x HTTP/1.1\r\nHost: x\r\n'],
  ['in a body that no route reads in time', 'POST /x HTTP/1.1\r\nHost: x\r\nContent-Length: 99\r\n\r\n{'],
])('cuts a connection that stops %s', async (_, text) => {
  const read = async (sent: Request) => new Response(await sent.text());
  const timeouts = { requestMs: 60_000, headerMs: 300, idleMs: 300, lookMs: 50 };
  const listening = await listen(read, '127.0.0.1', 0, timeouts);
  const startedMs = Date.now();
  const socket = connect(listening.port, '127.0.0.1');
  socket.on('error', () => {}).resume();
  socket.write(text);
  await new Promise((settle) => socket.once('close', settle));
  expect(Date.now() - startedMs).toBeGreaterThan(250);
  expect(Date.now() - startedMs).toBeLessThan(3000);
  await listening.close(1);
});
