import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { createTestDatabase, type TestDatabase } from '#tests/helpers/database.ts';
import { runCommand } from '#tests/helpers/run-slipdrift.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';

let folder: string;
let database: TestDatabase;
let app: TestApp;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'slipdrift-set-up-'));
  database = await createTestDatabase();
  app = await startApp({ apiKey: 'k-123' });
});
afterAll(async () => {
  await app?.stop();
  await database?.drop();
  await rm(folder, { recursive: true, force: true });
});

async function file(name: string, content: string | Buffer): Promise<string> {
  const path = join(folder, name);
  await writeFile(path, content);
  return path;
}

const run = (...argv: string[]) =>
  runCommand(['set-up', ...argv], { DATABASE_URL: database.url, SLIPDRIFT_API_KEY: '' });

const unitsOf = async (client: TestDatabase['client']) =>
  (await client`select unit from vehicles order by unit`).map(({ unit }) => unit);

describe('slipdrift set-up', () => {
  it('says what a file would come to, then sets it up in its own storage', async () => {
    const path = await file('fleet.csv.gz', gzipSync('id,vin\nB-1,1M8\nB-2,\n'));
    const dry = await run('vehicles', path, '--dry-run');
    expect(dry.code).toBe(0);
    expect(dry.out).toContain(
      'fleet.csv.gz: Nothing was changed: of 2 lines, 2 would be created, 0 would be changed, 0 as on record.',
    );
    expect(dry.out).toContain('line 2: vehicle B-1 created: vin 1M8, retired no');
    expect(dry.out).toContain('line 2, take care: vin has 3 characters');
    expect(dry.out).toMatch(/2 lines, from line 2 on, take care: id has sent no reading yet/);
    expect(await unitsOf(database.client)).toEqual([]);
    const done = await run('vehicles', path);
    expect([done.code, done.out.split('\n')[0]]).toEqual([
      0,
      'fleet.csv.gz: of 2 lines, 2 created, 0 changed, 0 as on record.',
    ]);
    expect(await unitsOf(database.client)).toEqual(['B-1', 'B-2']);
  });

  it('sets up through a server that runs', async () => {
    const path = await file('book.csv', 'vehicle;odometer_km;next_source\nB-7;1500,5;new\n');
    const { code, out } = await run('failures', path, '--to', app.url, '--key', 'k-123');
    expect([code, out]).toEqual([0, expect.stringContaining('of 1 line, 2 created')]);
    expect(await unitsOf(app.client)).toEqual(['B-7']);
    const refused = await run('failures', path, '--to', app.url, '--key', 'wrong');
    expect([refused.code, refused.out]).toEqual([1, '']);
  });

  it('fails with every fault by its line, and changes nothing', async () => {
    const path = await file('bad.csv', 'id,depot\nC-1,\nC-2,nowhere\nC-1,\n');
    for (const way of [[], ['--to', app.url, '--key', 'k-123']]) {
      const { code, error } = await run('vehicles', path, ...way);
      expect(code).toBe(1);
      expect(error).toContain('line 4: is the same C-1 as line 2; send each once');
      expect(error).toContain('bad.csv has faults. Nothing was changed.');
    }
    expect(await unitsOf(database.client)).not.toContain('C-1');
  });

  it('is asked wrongly with a kind or an address that there is not', async () => {
    const path = await file('x.csv', 'id\nC-1\n');
    expect((await run('wheels', path)).code).toBe(2);
    expect((await run('vehicles', path, '--to', 'nowhere')).code).toBe(2);
    expect((await run('vehicles', join(folder, 'none.csv'))).code).toBe(1);
  });
});
