import { rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { pino } from 'pino';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { startSlipdrift } from '#server/main.ts';
import { readSettings } from '#server/settings.ts';
import { cutDatabase } from '#tests/helpers/cut-database.ts';
import { createTestDatabase, type TestDatabase } from '#tests/helpers/database.ts';
import { makeCertificate } from '#tests/helpers/make-certificate.ts';
import { makeReading } from '#tests/helpers/make-reading.ts';
import { serveSlipdrift } from '#tests/helpers/run-slipdrift.ts';
import { type Broker, startBroker } from '#tests/helpers/start-broker.ts';
import { makeTemporaryFolder } from '#tests/helpers/temporary-folder.ts';

const { vehicle: _, ...bare } = makeReading({});
const atSecond = (second: number) => ({
  ...bare,
  at: new Date(Date.UTC(2026, 2, 4, 5, 0, second)).toISOString(),
});
const waiting = { timeout: 15_000, interval: 20 };

let database: TestDatabase;
let broker: Broker;
const toStop: (() => Promise<unknown>)[] = [];

beforeEach(async () => {
  database = await createTestDatabase();
});
afterEach(async () => {
  for (const stop of toStop.splice(0).reverse()) await stop();
  await database.drop();
});

async function openBroker(options: Parameters<typeof startBroker>[0] = {}) {
  broker = await startBroker(options);
  toStop.push(broker.stop);
}

async function open(more: Record<string, string> = {}) {
  const settings = {
    ...readSettings({ SLIPDRIFT_MQTT_URL: broker.url, DATABASE_URL: database.url, ...more }),
    port: 0,
  };
  const said: { msg: string }[] = [];
  const log = pino({ level: 'info' }, { write: (line: string) => void said.push(JSON.parse(line)) });
  const running = await startSlipdrift(settings, log);
  let isStopped = false;
  const stop = async () => {
    if (!isStopped) await running.stop();
    isStopped = true;
  };
  toStop.push(stop);
  return { running, stop, said: () => said.map(({ msg }) => msg) };
}
type Opened = Awaited<ReturnType<typeof open>>;

const subscribed = ({ said }: Opened) =>
  expect.poll(() => said().filter((text) => text === 'MQTT: readings can come').length, waiting);
const count = async () => (await database.client`select count(*) as n from readings`)[0]?.n;
const stored = () => expect.poll(count, waiting);

describe('a broker', () => {
  it('feeds what POST /api/readings takes, and what cannot be read is kept and acknowledged', async () => {
    await openBroker();
    const opened = await open();
    await subscribed(opened).toBe(1);
    await broker.publish('slipdrift/T-1/readings', JSON.stringify(atSecond(1)));
    await broker.publish('slipdrift/T-1/readings', gzipSync(JSON.stringify([atSecond(2), atSecond(3)])));
    await broker.publish(
      'slipdrift/T-2/readings',
      `at,odometer_km,slip_rpm,duty_pct\n${atSecond(4).at},900,11,85\n`,
    );
    await broker.publish('slipdrift/T-2/readings', JSON.stringify({ ...atSecond(5), vehicle: 'T-1' }));
    await broker.publish('slipdrift/T-2/readings', 'engine hours 812');
    await broker.publish('slipdrift/T-2/elsewhere', JSON.stringify(atSecond(6)));
    await broker.publish('slipdrift/T-3/readings', JSON.stringify(atSecond(7)), 2);
    await stored().toBe(5);
    await expect.poll(() => broker.acknowledged.length, waiting).toBe(6);
    const refused = await database.client`
      select raw, unit, fault from refused_lines order by fault`;
    expect(refused).toEqual([
      {
        raw: 'engine hours 812',
        unit: 'T-2',
        fault: 'is neither JSON nor CSV whose first line names the columns',
      },
      {
        raw: expect.stringContaining('T-1'),
        unit: 'T-1',
        fault: 'vehicle is another than that of the topic',
      },
    ]);
    const receipts =
      await database.client`select content_type, file, sender, read_with, complete from receipts`;
    expect(receipts.length).toBeGreaterThan(0);
    for (const row of receipts)
      expect(row).toEqual({
        content_type: 'mqtt',
        file: 'slipdrift/+/readings',
        sender: 'program:mqtt',
        read_with: { form: 'json' },
        complete: true,
      });
    const metrics = await (await fetch(`${opened.running.url}/metrics`)).text();
    expect(metrics).toContain('slipdrift_mqtt_connected 1');
    expect(metrics).toMatch(/slipdrift_readings_total\{fate="stored"\} 5/);
  });

  it('is not told that a message is kept before it is, and gathers many into one delivery', async () => {
    await openBroker();
    await subscribed(await open()).toBe(1);
    let release = () => {};
    const locked = new Promise<void>((settle) => {
      release = settle;
    });
    const holding = database.client.begin(async (client) => {
      await client`lock table receipts in access exclusive mode`;
      for (let i = 0; i < 30; i += 1)
        await broker.publish(`slipdrift/T-${i % 3}/readings`, JSON.stringify(atSecond(i)));
      await new Promise((settle) => setTimeout(settle, 600));
      expect(broker.acknowledged).toEqual([]);
      await locked;
    });
    await new Promise((settle) => setTimeout(settle, 50));
    release();
    await holding;
    await stored().toBe(30);
    await expect.poll(() => broker.acknowledged.length, waiting).toBe(30);
    const [receipts] = await database.client`select count(*) as n, sum(stored) as stored from receipts`;
    expect(receipts?.stored).toBe(30);
    expect(receipts?.n).toBeLessThan(20);
  });

  it('gives a message again to the next program where one was killed before its commit', async () => {
    await openBroker();
    const killed = await serveSlipdrift({ DATABASE_URL: database.url, SLIPDRIFT_MQTT_URL: broker.url });
    await expect.poll(() => killed.output().includes('MQTT: readings can come'), waiting).toBe(true);
    await database.client.begin(async (client) => {
      await client`lock table receipts in access exclusive mode`;
      await broker.publish('slipdrift/T-1/readings', JSON.stringify([atSecond(1), atSecond(2)]));
      await new Promise((settle) => setTimeout(settle, 500));
      await killed.kill('SIGKILL');
    });
    expect([await count(), broker.acknowledged]).toEqual([0, []]);
    await broker.publish('slipdrift/T-2/readings', JSON.stringify(atSecond(3)));
    expect(await count()).toBe(0);
    await subscribed(await open()).toBe(1);
    await stored().toBe(3);
    await expect.poll(() => broker.acknowledged.length, waiting).toBe(2);
    expect(new Set(broker.clients.filter((id) => id.startsWith('slipdrift'))).size).toBe(1);
  });

  it('keeps what comes while storage is away, and says so once', async () => {
    await openBroker();
    const cut = await cutDatabase(database.url);
    toStop.push(cut.close);
    const opened = await open({ DATABASE_URL: cut.url });
    await subscribed(opened).toBe(1);
    cut.cutAt('receipts');
    await broker.publish('slipdrift/T-1/readings', JSON.stringify(atSecond(1)));
    const waits = () => opened.said().filter((text) => text.includes('cannot be stored')).length;
    await expect.poll(waits, waiting).toBe(1);
    await broker.publish('slipdrift/T-1/readings', JSON.stringify(atSecond(2)));
    await new Promise((settle) => setTimeout(settle, 1200));
    expect([await count(), broker.acknowledged, waits()]).toEqual([0, [], 1]);
    cut.cutAt(null);
    await stored().toBe(2);
    await expect.poll(() => broker.acknowledged.length, waiting).toBe(2);
    expect(opened.said()).toContain('MQTT: messages are stored again');
  });

  it('that restarts is found again, with what it kept meanwhile', async () => {
    await openBroker();
    const opened = await open();
    await subscribed(opened).toBe(1);
    await broker.away();
    await new Promise((settle) => setTimeout(settle, 300));
    await broker.back();
    await broker.publish('slipdrift/T-1/readings', JSON.stringify(atSecond(1)));
    await subscribed(opened).toBe(2);
    await stored().toBe(1);
    expect(opened.said().filter((text) => text.includes('no connection to the broker'))).toHaveLength(1);
  });

  it('of MQTT 3.1.1 is taken as it is, with user and password', async () => {
    await openBroker({ version: 4, signIn: (user, password) => user === undefined || password === 'pa:ss' });
    const opened = await open({ SLIPDRIFT_MQTT_USER: 'fleet', SLIPDRIFT_MQTT_PASSWORD: 'pa:ss' });
    await subscribed(opened).toBe(1);
    await broker.publish('slipdrift/T-1/readings', JSON.stringify(atSecond(1)));
    await stored().toBe(1);
    await expect.poll(() => broker.acknowledged.length, waiting).toBe(1);
    expect(JSON.stringify(opened.said())).not.toContain('pa:ss');
  });

  it('is read over TLS where its certificate is known, and not where it is not', async () => {
    const tls = makeCertificate();
    await openBroker({ tls });
    const opened = await open();
    await expect
      .poll(() => opened.said().some((text) => text.includes('no connection to the broker')), waiting)
      .toBe(true);
    expect(broker.clients).toEqual([]);
    await opened.stop();
    const folder = makeTemporaryFolder();
    toStop.push(async () => rmSync(folder, { recursive: true }));
    writeFileSync(join(folder, 'broker.pem'), tls.cert);
    const trusting = await open({ SLIPDRIFT_MQTT_URL: `${broker.url}?ca=${join(folder, 'broker.pem')}` });
    await subscribed(trusting).toBe(1);
    await broker.publish('slipdrift/T-1/readings', JSON.stringify(atSecond(1)));
    await stored().toBe(1);
    await expect(
      open({ SLIPDRIFT_MQTT_URL: `${broker.url}?ca=${join(folder, 'none.pem')}` }),
    ).rejects.toThrow(/^SLIPDRIFT_MQTT_URL names .*none\.pem, which is no certificate that can be read\.$/);
  });

  it('that is away does not keep the program from starting', async () => {
    await openBroker();
    await broker.away();
    const opened = await open();
    expect((await fetch(`${opened.running.url}/health/ready`)).status).toBe(200);
    await broker.back();
    await subscribed(opened).toBe(1);
  });
});

it('lets one of two programs read, and the other take over with nothing lost', async () => {
  await openBroker();
  const first = await open();
  await subscribed(first).toBe(1);
  const second = await open();
  await broker.publish('slipdrift/T-1/readings', JSON.stringify(atSecond(1)));
  await stored().toBe(1);
  expect(broker.clients.filter((id) => id.startsWith('slipdrift'))).toHaveLength(1);
  await broker.publish('slipdrift/T-1/readings', JSON.stringify(atSecond(2)));
  await first.stop();
  await broker.publish('slipdrift/T-1/readings', JSON.stringify(atSecond(3)));
  await subscribed(second).toBe(1);
  await stored().toBe(3);
  const receipts =
    await database.client`select sum(stored) as stored, sum(duplicate) as duplicate from receipts`;
  expect(receipts[0]).toEqual({ stored: 3, duplicate: 0 });
});
