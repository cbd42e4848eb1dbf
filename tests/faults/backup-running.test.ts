import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, inject, it } from 'vitest';
import { removeStorage } from '#db/embedded/remove-storage.ts';
import { createTestDatabase, type TestDatabase } from '#tests/helpers/database.ts';
import { runSlipdrift, type Served, serveSlipdrift } from '#tests/helpers/run-slipdrift.ts';
import { makeTemporaryFolder } from '#tests/helpers/temporary-folder.ts';
import { withDatabase } from '#tests/helpers/with-database.ts';

const KEY = 'backup-test-key-0123456789abcdef';
const headers = { authorization: `Bearer ${KEY}`, 'content-type': 'application/x-ndjson' };

/** Lines of fifty vehicles, one a second: another `from`, other readings. */
const lines = (from: number, count: number, prefix = 'B') =>
  Array.from(
    { length: count },
    (_, i) =>
      `${JSON.stringify({
        vehicle: `${prefix}-${(from + i) % 50}`,
        at: new Date(Date.UTC(2026, 2, 1) + (from + i) * 1000).toISOString(),
        odometer_km: 1000 + (from + i) / 100,
        slip_rpm: 12,
        duty_pct: 85,
        fluid_c: 85,
      })}\n`,
  ).join('');

const deliver = (program: Served, body: string) =>
  fetch(`${program.url}/api/readings`, { method: 'POST', headers, body });

async function run(args: string[], settings: Record<string, string>): Promise<string> {
  const program = runSlipdrift(args, settings);
  const code = await program.ended;
  expect(code, program.output()).toBe(0);
  return program.output();
}

describe('while a server runs on a database', { timeout: 300_000 }, () => {
  let folder: string;
  let database: TestDatabase;
  let program: Served;
  let settings: Record<string, string>;
  beforeAll(async () => {
    folder = makeTemporaryFolder();
    database = await createTestDatabase();
    const [row] = await database.client`select current_database() as name`;
    settings = {
      DATABASE_URL: withDatabase(inject('templateUrl'), String(row?.name)),
      SLIPDRIFT_API_KEY: KEY,
    };
    program = await serveSlipdrift(settings);
    expect((await deliver(program, lines(0, 20_000))).status).toBe(200);
  });
  afterAll(async () => {
    await program.kill('SIGTERM');
    await database.drop();
    rmSync(folder, { recursive: true });
  });

  const count = async (of: TestDatabase) => {
    const [row] = await of.client`
      select (select count(*) from readings) as readings, (select sum(stored)::int from receipts) as stored,
        (select count(*) from vehicles) as vehicles`;
    return row as { readings: number; stored: number; vehicles: number };
  };

  it('a backup in the middle of deliveries has each batch whole or not at all', async () => {
    const file = join(folder, 'amid.tar.gz');
    let isDone = false;
    let sent = 0;
    const sending = (async () => {
      for (let from = 100_000; !isDone; from += 11_000) {
        expect((await deliver(program, lines(from, 11_000))).status).toBe(200);
        sent += 11_000;
      }
    })();
    await expect.poll(() => sent, { timeout: 60_000 }).toBeGreaterThan(0);
    const before = await count(database);
    await run(['backup', file], settings);
    const after = await count(database);
    isDone = true;
    await sending;
    const other = await createTestDatabase();
    try {
      const [row] = await other.client`select current_database() as name`;
      await run(['restore', file], { DATABASE_URL: withDatabase(inject('templateUrl'), String(row?.name)) });
      const found = await count(other);
      expect(found.readings).toBe(found.stored);
      expect(found.readings).toBeGreaterThanOrEqual(before.readings);
      expect(after.readings).toBeGreaterThan(before.readings);
      expect(found.readings).toBeLessThanOrEqual(after.readings);
    } finally {
      await other.drop();
    }
  });

  it('a restore puts the old state back, while it answers, takes deliveries and assesses on', async () => {
    const file = join(folder, 'state.tar.gz');
    await run(['backup', file], settings);
    const saved = await count(database);
    expect((await deliver(program, lines(900_000, 100, 'LATER'))).status).toBe(200);
    expect((await count(database)).vehicles).toBe(saved.vehicles + 50);
    let isDone = false;
    const answers: number[] = [];
    const asking = (async () => {
      while (!isDone) {
        answers.push((await fetch(`${program.url}/api/ranking`, { headers })).status);
        await new Promise((settle) => setTimeout(settle, 20));
      }
    })();
    await run(['restore', '--replace', file], settings);
    isDone = true;
    await asking;
    expect([...new Set(answers)]).toEqual([200]);
    expect(answers.length).toBeGreaterThan(20);
    expect(await count(database)).toEqual(saved);
    const again = await deliver(program, lines(900_000, 100, 'LATER'));
    expect(await again.json()).toMatchObject({ received: 100, stored: 100, duplicate: 0 });
    const assessed = await fetch(`${program.url}/api/assess`, {
      method: 'POST',
      headers: { ...headers, 'content-type': 'application/json' },
      body: '{}',
    });
    expect(assessed.status, await assessed.text()).toBe(200);
    const [row] = await database.client`
      select count(*) as n from assessments a join vehicles v on v.key = a.vehicle where v.unit like 'LATER-%'`;
    expect(row).toEqual({ n: 50 });
  });

  it('a delivery that a restore overtakes is refused whole, and leaves nothing', async () => {
    const file = join(folder, 'overtaken.tar.gz');
    await run(['backup', file], settings);
    const saved = await count(database);
    let goOn = () => {};
    const held = new Promise<void>((settle) => {
      goOn = settle;
    });
    const body = new ReadableStream({
      async start(controller) {
        controller.enqueue(new TextEncoder().encode(lines(2_000_000, 12_000, 'SLOW')));
        await held;
        controller.enqueue(new TextEncoder().encode(lines(2_012_000, 12_000, 'SLOW')));
        controller.close();
      },
    });
    const answered = fetch(`${program.url}/api/readings`, {
      method: 'POST',
      headers,
      body,
      duplex: 'half',
    } as RequestInit);
    await expect
      .poll(async () => (await count(database)).readings, { timeout: 60_000 })
      .toBeGreaterThan(saved.readings);
    await run(['restore', '--replace', file], settings);
    goOn();
    const answer = await answered;
    expect(answer.status).toBe(503);
    expect(await answer.json()).toMatchObject({
      detail: expect.stringContaining('replaced from a backup'),
    });
    expect(await count(database)).toEqual(saved);
  });
});

describe('with a PostgreSQL of our own', { timeout: 300_000 }, () => {
  let folder: string;
  let settings: Record<string, string>;
  beforeEach(() => {
    folder = makeTemporaryFolder();
    settings = { SLIPDRIFT_DATA: join(folder, 'data'), SLIPDRIFT_API_KEY: KEY };
  });
  afterEach(() => {
    for (const name of ['data', 'other']) removeStorage(join(folder, name));
    rmSync(folder, { recursive: true });
  });

  const stored = async (program: Served) =>
    (await (await deliver(program, lines(0, 10))).json()) as { stored: number; duplicate: number };

  it('backs up while Slipdrift runs and while it is stopped, and restores into another folder', async () => {
    const first = await serveSlipdrift(settings);
    expect(await stored(first)).toMatchObject({ stored: 10 });
    const running = join(folder, 'running.tar.gz');
    const stopped = join(folder, 'stopped.tar.gz');
    await run(['backup', running], settings);
    expect(await stored(first)).toMatchObject({ duplicate: 10 });
    expect(await first.kill('SIGTERM')).toBe(0);
    await run(['backup', stopped], settings);
    expect(existsSync(join(folder, 'data/postgres/postmaster.pid'))).toBe(false);
    for (const file of [running, stopped])
      expect(await run(['restore', '--check', file], {})).toMatch(/is whole: 10 readings of 10 vehicles/);
    const other = { ...settings, SLIPDRIFT_DATA: join(folder, 'other') };
    await run(['restore', stopped], other);
    expect(existsSync(join(folder, 'other/postgres/postmaster.pid'))).toBe(false);
    const second = await serveSlipdrift(other);
    expect(await stored(second)).toMatchObject({ stored: 0, duplicate: 10 });
    expect(await second.kill('SIGTERM')).toBe(0);
  });

  it('declines data of another PostgreSQL, untouched, and says the way with a backup', async () => {
    const first = await serveSlipdrift(settings);
    await first.kill('SIGTERM');
    const cluster = join(folder, 'data/postgres');
    writeFileSync(join(cluster, 'PG_VERSION'), '17\n');
    const before = digestFolder(cluster);
    for (const args of [['serve'], ['backup', join(folder, 'b.tar.gz')]]) {
      const refused = runSlipdrift(args, { ...settings, PORT: '0' });
      expect(await refused.ended).toBe(1);
      expect(refused.output()).toMatch(
        /written by PostgreSQL 17, .*Nothing was changed\. .*slipdrift backup FILE, .*slipdrift restore FILE/,
      );
    }
    expect(digestFolder(cluster)).toEqual(before);
    expect(existsSync(join(folder, 'b.tar.gz.part'))).toBe(false);
  });
});

function digestFolder(folder: string): string {
  const hash = createHash('sha256');
  for (const entry of readdirSync(folder, { recursive: true, withFileTypes: true })) {
    const path = join(entry.parentPath, entry.name);
    hash.update(path);
    if (entry.isFile()) hash.update(readFileSync(path));
  }
  return hash.digest('hex');
}
