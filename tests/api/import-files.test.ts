import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { createTestDatabase, type TestDatabase } from '#tests/helpers/database.ts';
import { makeReading, minutesLater, toNdjson } from '#tests/helpers/make-reading.ts';
import { runCommand } from '#tests/helpers/run-slipdrift.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';

const readings = Array.from({ length: 5 }, (_, i) => makeReading({ at: minutesLater(i) }));
const csv = [
  'vehicle,at,odometer_km,slip_rpm,duty_pct,fluid_c',
  ...readings.map((r) => `${r.vehicle},${r.at},${r.odometer_km},${r.slip_rpm},${r.duty_pct},${r.fluid_c}`),
].join('\n');

let folder: string;
let database: TestDatabase;
let app: TestApp;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'slipdrift-import-'));
  database = await createTestDatabase();
  app = await startApp({ apiKey: 'k-123' });
});
afterAll(async () => {
  await app.stop();
  await database.drop();
  await rm(folder, { recursive: true, force: true });
});
beforeEach(async () => {
  for (const { client } of [database, app])
    await client`truncate readings, receipts, refused_lines, touched_vehicles, vehicles cascade`;
});

async function file(name: string, content: string | Buffer): Promise<string> {
  const path = join(folder, name);
  await writeFile(path, content);
  return path;
}

const run = (...argv: string[]) =>
  runCommand(['import', ...argv], { DATABASE_URL: database.url, SLIPDRIFT_API_KEY: '' });

describe('slipdrift import', () => {
  it('stores CSV, NDJSON and JSON files, plain and gzip, each reading once', async () => {
    const { code, out } = await run(
      await file('a.csv', csv),
      await file('b.ndjson.gz', gzipSync(toNdjson(readings))),
      await file('c.json', JSON.stringify({ readings: [...readings, makeReading({ vehicle: 'B-9' })] })),
    );
    expect(code).toBe(0);
    expect(out).toContain('a.csv: 5 lines, 5 stored, 0 there already, 0 refused');
    expect(out).toContain('b.ndjson.gz: 5 lines, 0 stored, 5 there already, 0 refused');
    expect(out).toContain('c.json: 6 lines, 1 stored, 5 there already, 0 refused');
    const [count] = await database.client`select count(*) as n from readings`;
    expect(count?.n).toBe(6);
  });

  it('shows refused lines and says where all of them are', async () => {
    const { code, out } = await run(await file('d.csv', `${csv}\nB-1,yesterday,1,2,50,80`));
    expect(code).toBe(0);
    expect(out).toContain('5 stored, 0 there already, 1 refused');
    expect(out).toMatch(/line 7: at must be an RFC 3339 time/);
    expect(out).toMatch(/GET \/api\/receipts\/[0-9a-f-]{36}/);
  });

  it('fails where a file breaks off, has the wrong header or nothing good, and goes on with the next', async () => {
    const whole = gzipSync(toNdjson(readings));
    const { code, out, error } = await run(
      await file('cut.ndjson.gz', whole.subarray(0, whole.length - 12)),
      await file('header.csv', `x,y\n1,2`),
      await file('bad.ndjson', '{}\n'),
      await file('good.csv', csv),
    );
    expect(code).toBe(1);
    expect(out).toContain('It was not read to its end. The gzip data is broken');
    expect(error).toContain('header.csv: The first line of the CSV must name the columns');
    expect(error).toContain('line 1: does not name the columns');
    expect(error).toContain('see what it would come to with slipdrift import --look');
    expect(error).toContain('3 of 4 files could not be imported whole');
    const [count] = await database.client`select count(*) as n from readings`;
    expect(count?.n).toBe(5);
  });

  it('sends to a server with its key, and is told when the key is wrong', async () => {
    const path = await file('e.csv', csv);
    const { code, out } = await run('--to', app.url, '--key', 'k-123', path);
    expect({ code, out }).toEqual({ code: 0, out: expect.stringContaining('5 lines, 5 stored') });
    const [count] = await app.client`select count(*) as n from readings`;
    expect(count?.n).toBe(5);
    const declined = await run('--to', app.url, '--key', 'wrong', path);
    expect(declined.code).toBe(1);
    expect(declined.error).toContain('This key is not known here');
  });

  it('has a server look at a file of another form, save the mapping and read by it', async () => {
    const path = await file('h.csv', 'Bus;Zeit;Odo km;Schlupf;Tastgrad %\nB-1;4.3.2026 5:06;1,5;2,5;85\n');
    const to = ['--to', app.url, '--key', 'k-123'];
    const bare = await run(...to, '--look', '--save-mapping', 'shop', path);
    expect(bare.code).toBe(1);
    expect(bare.out).toContain('Lacks: zone must be given with the file');
    expect(bare.out).toContain("Nothing is saved as 'shop' until the file can be read.");
    const told = ['--zone', '+01:00'];
    const looked = await run(...to, ...told, '--look', '--save-mapping', 'shop', path);
    expect(looked.out).toContain(
      "To check: 'Zeit' may have month before day; it is read with day before month.",
    );
    expect(looked.out).toContain('B-1 2026-03-04T04:06:00.000Z odometer_km 1.5, slip_rpm 2.5, duty_pct 85');
    const [none] = await app.client`select count(*)::int as n from readings where odometer_km = 1.5`;
    expect(none?.n).toBe(0);
    // The zone that was told is in the mapping now.
    const { code, out } = await run(...to, '--mapping', 'shop', path);
    expect({ code, out }).toEqual({ code: 0, out: expect.stringContaining('1 line, 1 stored') });
    const [stored] = await app.client`select slip_rpm, duty_pct from readings where odometer_km = 1.5`;
    expect(stored).toEqual({ slip_rpm: 2.5, duty_pct: 85 });
  });

  it.each([
    [['--zone', 'UTC', '--start', 'soon'], '--start must be an RFC 3339 time'],
    [['--save-mapping', 'x'], '--save-mapping goes with --look'],
    [['--mapping', 'none'], "There is no mapping 'none'"],
  ])('says what is wrong with %s', async (flags, words) => {
    const { code, error } = await run(...flags, await file('i.csv', csv));
    expect(code).toBe(1);
    expect(error).toContain(words);
  });

  it('fails in one sentence where the file or the server is not there', async () => {
    const missing = await run(join(folder, 'none.csv'));
    expect(missing.code).toBe(1);
    expect(missing.error).toMatch(/none\.csv does not exist\.\n$/);
    const away = await run('--to', 'http://127.0.0.1:9', await file('f.csv', csv));
    expect(away.code).toBe(1);
    expect(away.error).toContain('http://127.0.0.1:9 broke off or cannot be reached');
  });

  it('is asked wrongly without a file or with an address that is none', async () => {
    expect((await run()).code).toBe(2);
    expect((await run('--to', 'nowhere', await file('g.csv', csv))).code).toBe(2);
  });
});
