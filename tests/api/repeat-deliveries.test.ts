import { gzipSync } from 'node:zlib';
import { pino } from 'pino';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Database, openDatabase } from '#db/client.ts';
import { programActor } from '#server/services/actor.ts';
import { receiveDelivery } from '#server/services/intake/receive-delivery.ts';
import { makeReading, minutesLater, toNdjson } from '#tests/helpers/make-reading.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';

let app: TestApp;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.stop());

async function deliver(key: string, body: unknown, headers: Record<string, string> = {}) {
  const answer = await app.post('/api/readings', body, {
    'content-type': 'application/x-ndjson',
    'idempotency-key': key,
    ...headers,
  });
  return {
    status: answer.status,
    replayed: answer.headers.get('idempotency-replayed'),
    retryAfter: answer.headers.get('retry-after'),
    reply: await answer.json(),
  };
}

const lines = (vehicle: string, n = 3) =>
  toNdjson(Array.from({ length: n }, (_, i) => makeReading({ vehicle, at: minutesLater(i) })));

/** A body whose last piece waits to be let go, and that tells how many were asked for. */
function pausing(pieces: Buffer[]) {
  let letGo = () => {};
  const gate = new Promise<void>((settle) => {
    letGo = settle;
  });
  let asked = 0;
  async function* chunks() {
    for (const piece of pieces) {
      asked += 1;
      if (asked === pieces.length) await gate;
      yield piece;
    }
  }
  return { chunks: chunks(), asked: () => asked, goOn: () => letGo() };
}

const deliverIn = ({ db, body }: { db: Database; body: AsyncIterable<Uint8Array> }) =>
  receiveDelivery(
    { db, now: () => new Date(), log: pino({ level: 'silent' }), actor: programActor('a gateway') },
    {
      body,
      format: 'ndjson',
      contentType: 'application/x-ndjson',
      mapping: null,
      given: {},
      file: null,
      gzip: false,
      limitBytes: 1e9,
      ignoreUnknownColumns: false,
      idempotencyKey: 'again-7',
    },
  );

describe('an idempotency key', () => {
  it('brings the stored answer again, with the receipt and counts of the first time', async () => {
    const first = await deliver('again-1', `${lines('a')}\nbroken`);
    expect(first).toMatchObject({ status: 200, replayed: null, reply: { stored: 3, refused: 1 } });
    const second = await deliver('again-1', `${lines('a')}\nbroken`);
    expect(second).toEqual({ ...first, replayed: 'true' });
    const [count] = await app.client`select count(*) as n from receipts where id = ${first.reply.receipt}`;
    expect(count?.n).toBe(1);
  });

  it('means the same body also when it comes as gzip', async () => {
    const first = await deliver('again-2', lines('b'));
    const body = new Blob([gzipSync(lines('b'))]);
    const second = await deliver('again-2', body, { 'content-encoding': 'gzip' });
    expect(second).toEqual({ ...first, replayed: 'true' });
  });

  it('with another body is refused, and nothing of that body is stored', async () => {
    const first = await deliver('again-3', lines('c'));
    const second = await deliver('again-3', lines('never'));
    expect(second).toMatchObject({ status: 422, replayed: null, reply: { code: 'key_reused' } });
    expect(second.reply.detail).toContain(first.reply.receipt);
    expect(await app.client`select from vehicles where unit = 'never'`).toHaveLength(0);
  });

  it('that came with a body which broke off may come again with the whole body', async () => {
    const json = { 'content-type': 'application/json' };
    const whole = `[${lines('d').replaceAll('\n', ',')}]`;
    expect(await deliver('again-4', whole.slice(0, -9), json)).toMatchObject({
      status: 400,
      reply: { delivery: { stored: 2 } },
    });
    expect(await deliver('again-4', whole, json)).toMatchObject({
      status: 200,
      reply: { stored: 1, duplicate: 2 },
    });
  });

  it.each([['with blanks in it'], ['x'.repeat(256)]])('that is no key is refused: %s', async (key) => {
    expect(await deliver(key, lines('e'))).toMatchObject({
      status: 400,
      reply: { errors: [{ field: 'Idempotency-Key' }] },
    });
  });

  it('in use by a delivery that has not ended is told so', async () => {
    const encoder = new TextEncoder();
    let end = () => {};
    const slow = new ReadableStream({
      start(controller) {
        controller.enqueue(encoder.encode(`${lines('f')}\n`));
        end = () => controller.close();
      },
    });
    const first = deliver('again-5', slow);
    await expect
      .poll(async () => (await deliver('again-5', lines('f'))).status, { timeout: 10_000 })
      .toBe(409);
    const second = await deliver('again-5', lines('f'));
    expect(second).toMatchObject({ reply: { code: 'key_in_progress' }, retryAfter: '2' });
    end();
    expect(await first).toMatchObject({ status: 200, reply: { received: 3 } });
  });

  it('taken up by another program while the first goes on with it counts each line once', async () => {
    const each = lines('h', 12_000).split('\n');
    const cut = (from: number, to: number) => Buffer.from(`${each.slice(from, to).join('\n')}\n`);
    const database = openDatabase(app.databaseUrl);
    const first = pausing([cut(0, 6000), cut(6000, 12_000)]);
    const second = pausing([cut(0, 12_000)]);
    const firstAnswer = deliverIn({ db: app.db, body: first.chunks });
    await expect.poll(first.asked).toBe(2);
    const receivedBy = () =>
      app.client`select received, stored from receipts where idempotency_key like '%again-7'`;
    // One batch, of whole blocks.
    await expect.poll(async () => (await receivedBy())[0]?.stored ?? 0).toBeGreaterThanOrEqual(5000);
    const secondAnswer = deliverIn({ db: database.db, body: second.chunks });
    // It has looked the key up, and waits for its body.
    await expect.poll(second.asked).toBe(1);
    first.goOn();
    expect(await firstAnswer).toMatchObject({ reply: { received: 12_000, stored: 12_000, duplicate: 0 } });
    second.goOn();
    await expect(secondAnswer).rejects.toMatchObject({ code: 'key_in_progress' });
    expect(await receivedBy()).toEqual([{ received: 12_000, stored: 12_000 }]);
    await database.close();
  });

  it('sent by many at once stores one body once', async () => {
    const answers = await Promise.all(Array.from({ length: 8 }, () => deliver('again-6', lines('g', 500))));
    const statuses = new Set(answers.map(({ status }) => status));
    expect([...statuses].every((status) => status === 200 || status === 409)).toBe(true);
    const fresh = answers.filter(({ status, replayed }) => status === 200 && replayed === null);
    expect(fresh).toHaveLength(1);
    expect(fresh[0]?.reply).toMatchObject({ stored: 500, duplicate: 0 });
  });
});
