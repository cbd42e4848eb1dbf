import {
  chmodSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { pino } from 'pino';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { openDatabase } from '#db/client.ts';
import { mapping } from '#server/contract/mappings.ts';
import type { DeliveryReply } from '#server/contract/receipts.ts';
import { startSlipdrift } from '#server/main.ts';
import { programActor } from '#server/services/actor.ts';
import type { Context } from '#server/services/context.ts';
import { saveMapping } from '#server/services/mappings/mappings.ts';
import { checkFolder } from '#server/services/watched-folder/check-folder.ts';
import { createLook } from '#server/services/watched-folder/look-at-folder.ts';
import { readSettings } from '#server/settings.ts';
import { cutDatabase } from '#tests/helpers/cut-database.ts';
import { createTestDatabase, type TestDatabase } from '#tests/helpers/database.ts';
import { expectedRows, MADE_START_S, MADE_VIN, makeCanLog, toText } from '#tests/helpers/made-can-log.ts';
import { makeReading, toNdjson } from '#tests/helpers/make-reading.ts';

let database: TestDatabase;
let ctx: Context;
let folder: string;
let said: { msg: string; folder?: string }[];
let taken: [fate: string, reply: DeliveryReply | null][];

beforeAll(async () => {
  database = await createTestDatabase();
});
afterAll(() => database?.drop());
beforeEach(async () => {
  await database.client`truncate readings, receipts, refused_lines, touched_vehicles, sender_weeks, lives, vehicles cascade`;
  folder = await checkFolder(mkdtempSync(join(tmpdir(), 'slipdrift-watched-')));
  said = [];
  taken = [];
  const log = pino({ level: 'info' }, { write: (line: string) => void said.push(JSON.parse(line)) });
  ctx = { db: database.db, now: () => new Date(), log, actor: programActor('test') };
  return () => rmSync(folder, { recursive: true, force: true });
});

const newLook = (more: Partial<Context> = {}) =>
  createLook(
    { ...ctx, ...more },
    { folder, stillMs: 0, onTaken: (fate, reply) => void taken.push([fate, reply]) },
  );
const { signal } = new AbortController();
const put = (name: string, text: string | Buffer) => writeFileSync(join(folder, name), text);
const namesIn = (place: string) => readdirSync(join(folder, place)).sort();
const count = async (table: string) =>
  (await database.client`select count(*) as n from ${database.client(table)}`)[0]?.n;
const atSecond = (second: number) =>
  makeReading({ at: new Date(Date.UTC(2026, 2, 4, 5, 0, second)).toISOString() });
const csv = (rows: string[]) => `vehicle,at,odometer_km,slip_rpm,duty_pct\n${rows.join('\n')}\n`;

describe('a watched folder', () => {
  it('takes files of every form of ours in once, and moves each to where it belongs', async () => {
    put('a.csv', csv(['W-1,2026-03-04T05:00:00Z,1000,12,85', 'W-1,2026-03-04T05:00:10Z,1000,12,180']));
    put('b.ndjson', toNdjson([atSecond(1), atSecond(2)]));
    put('c.json.gz', gzipSync(JSON.stringify({ readings: [atSecond(3)] })));
    put('d.csv', csv(['W-1,yesterday,1000,12,85']));
    put('e.csv', 'speed;rpm\n1;2\n');
    put('f.json', '[{"vehicle": "W-1", ');
    put('g.csv.part', csv(['W-1,2026-03-04T06:00:00Z,1000,12,85']));
    put('.h.csv', csv(['W-1,2026-03-04T06:00:00Z,1000,12,85']));
    put('empty.csv', '');
    put('drive.log', toText(makeCanLog(MADE_START_S), false));
    await newLook()(signal);
    expect(namesIn('done')).toEqual(['a.csv', 'b.ndjson', 'c.json.gz', 'drive.log']);
    const refused = ['d.csv', 'e.csv', 'empty.csv', 'f.json'];
    expect(namesIn('refused')).toEqual(refused.flatMap((name) => [name, `${name}.why.txt`]));
    expect(namesIn('.')).toEqual(['.h.csv', 'done', 'g.csv.part', 'refused']);
    const whyOf = (name: string) => readFileSync(join(folder, 'refused', `${name}.why.txt`), 'utf8');
    expect(whyOf('d.csv')).toMatch(
      /None of its lines could be a reading\.\s+line 2: at .*\n\nReceipt: [0-9a-f-]{36}/,
    );
    expect(whyOf('e.csv')).toMatch(/separated by ';'/);
    expect(whyOf('e.csv')).toMatch(/Nothing of it is kept/);
    expect(whyOf('empty.csv')).toMatch(/empty/);
    expect(await count('readings')).toBe(4 + expectedRows(MADE_VIN, 1000 * MADE_START_S).length);
    const kept = await database.client`select file, content_type, sender from receipts order by file`;
    expect(kept.map(({ file }) => file)).toEqual([
      'a.csv',
      'b.ndjson',
      'c.json.gz',
      'd.csv',
      'drive.log',
      'f.json',
    ]);
    expect(kept[0]).toMatchObject({ content_type: 'file', sender: 'program:folder' });
    expect(taken.map(([fate]) => fate).sort()).toEqual([
      ...Array(4).fill('done'),
      ...Array(4).fill('refused'),
    ]);
    await newLook()(signal);
    expect(await count('receipts')).toBe(6);
  });

  it('reads files in a folder of a mapping by it, with the vehicle and day of their names', async () => {
    const german = mapping.parse({
      separator: ';',
      decimal: ',',
      vehicle: 'file_name',
      columns: [
        { column: 'Zeit', takes: 'clock' },
        { column: 'km', takes: 'odometer_km' },
        { column: 'Schlupf', takes: 'slip_rpm' },
        { column: 'Duty', takes: 'duty_pct' },
      ],
      time: { date: 'file_name', zone: 'Europe/Berlin' },
    });
    await saveMapping(ctx, 'Werkstatt', german);
    for (const name of ['Werkstatt', 'unknown']) mkdirSync(join(folder, name));
    const text = 'Zeit;km;Schlupf;Duty\n10:00:00;1000,5;12,25;85\n10:00:10;1000,6;12,5;85\n';
    put('Werkstatt/W-77_2026-03-04.csv', text);
    put('unknown/W-78_2026-03-04.csv', text);
    const look = newLook();
    await look(signal);
    await look(signal);
    expect(namesIn('done/Werkstatt')).toEqual(['W-77_2026-03-04.csv']);
    expect(namesIn('unknown')).toEqual(['W-78_2026-03-04.csv']);
    const told = said.filter(({ msg }) => msg.includes('name of no mapping'));
    expect(told).toMatchObject([{ folder: 'unknown' }]);
    const rows = await database.client`
      select unit, at, r.odometer_km, slip_rpm from readings r join vehicles v on v.key = r.vehicle order by at`;
    expect(rows[0]).toEqual({
      unit: 'W-77',
      at: new Date('2026-03-04T09:00:00Z'),
      odometer_km: 1000.5,
      slip_rpm: 12.25,
    });
    await saveMapping(ctx, 'unknown', german);
    await look(signal);
    expect(await count('readings')).toBe(4);
  });

  it('stores nothing twice where the program was killed before the move, under the same receipt', async () => {
    const text = csv(['W-1,2026-03-04T05:00:00Z,1000,12,85', 'W-1,2026-03-04T05:00:10Z,1000,12,180']);
    put('a.csv', text);
    const at = new Date('2026-03-05T00:00:00Z');
    utimesSync(join(folder, 'a.csv'), at, at);
    await newLook()(signal);
    const [first] = await database.client`select id from receipts`;
    rmSync(join(folder, 'done', 'a.csv'));
    put('a.csv', text);
    utimesSync(join(folder, 'a.csv'), at, at);
    await newLook()(signal);
    expect(await database.client`select id from receipts`).toEqual([first]);
    expect([await count('readings'), await count('refused_lines')]).toEqual([1, 1]);
    expect(namesIn('done')).toEqual(['a.csv']);
    expect(taken[1]?.[1]?.receipt).toBe(first?.id);
  });

  it('goes on with a large file that a stop broke off, and streams it', async () => {
    const rows = Array.from(
      { length: 200_000 },
      (_, i) =>
        `W-1,${new Date(Date.UTC(2026, 2, 4) + 1000 * i).toISOString()},1000,12,${i % 100 === 7 ? 'x' : 85}`,
    );
    put('large.csv', csv(rows));
    const stop = new AbortController();
    const running = newLook()(stop.signal);
    await expect.poll(() => count('readings'), { timeout: 20_000, interval: 5 }).toBeGreaterThan(0);
    stop.abort();
    await running;
    const part = await count('readings');
    expect(part).toBeLessThan(198_000);
    expect(namesIn('.')).toContain('large.csv');
    expect(namesIn('refused')).toEqual([]);
    await newLook()(signal);
    expect([await count('readings'), await count('refused_lines'), await count('receipts')]).toEqual([
      198_000, 2_000, 1,
    ]);
    expect(namesIn('done')).toEqual(['large.csv']);
  });

  it('never overwrites: a name that is there gets a number', async () => {
    const look = newLook();
    for (const second of [1, 2, 3]) {
      put('a.ndjson', toNdjson([atSecond(second)]));
      await look(signal);
    }
    expect(namesIn('done')).toEqual(['a-2.ndjson', 'a-3.ndjson', 'a.ndjson']);
    expect(readFileSync(join(folder, 'done', 'a-3.ndjson'), 'utf8')).toContain('05:00:03');
  });

  it('neither reads nor follows links out of it', async () => {
    const outside = mkdtempSync(join(tmpdir(), 'slipdrift-outside-'));
    writeFileSync(join(outside, 'secret.ndjson'), toNdjson([atSecond(1)]));
    symlinkSync(join(outside, 'secret.ndjson'), join(folder, 'link.ndjson'));
    symlinkSync(outside, join(folder, 'Werkstatt'));
    await newLook()(signal);
    expect([await count('readings'), taken]).toEqual([0, []]);
    expect(readdirSync(outside)).toEqual(['secret.ndjson']);
    rmSync(outside, { recursive: true });
  });

  it('leaves a file where it is while storage is away', async () => {
    put('a.ndjson', toNdjson([atSecond(1)]));
    const cut = await cutDatabase(database.url);
    const { db, close } = openDatabase(cut.url, { connections: 2 });
    const look = newLook({ db });
    cut.cutAt('receipts');
    await look(signal);
    await look(signal);
    expect([namesIn('.'), taken]).toEqual([['a.ndjson', 'done', 'refused'], []]);
    expect(said.filter(({ msg }) => msg.includes('tried again'))).toHaveLength(1);
    cut.cutAt(null);
    await look(signal);
    expect([await count('readings'), namesIn('done')]).toEqual([1, ['a.ndjson']]);
    await close(1);
    await cut.close();
  });
});

describe('the start', () => {
  it('is stopped by a folder that is not there or cannot be written, in one sentence', async () => {
    await expect(checkFolder(join(folder, 'none'))).rejects.toThrow(
      /^SLIPDRIFT_WATCH_FOLDER is .*, which does not exist\.$/,
    );
    put('file', '');
    await expect(checkFolder(join(folder, 'file'))).rejects.toThrow(/which is no folder\.$/);
    rmSync(join(folder, 'done'), { recursive: true });
    put('done', '');
    await expect(checkFolder(folder)).rejects.toThrow(/nothing can be written \(E\w+\)\.$/);
    if (process.getuid?.() !== 0) {
      rmSync(join(folder, 'done'));
      chmodSync(folder, 0o500);
      await expect(checkFolder(folder)).rejects.toThrow(/EACCES/);
      chmodSync(folder, 0o700);
    }
  });

  it('of a server takes in what comes, without being told', { timeout: 40_000 }, async () => {
    const settings = {
      ...readSettings({ SLIPDRIFT_WATCH_FOLDER: folder, DATABASE_URL: database.url }),
      port: 0,
    };
    const running = await startSlipdrift(settings, ctx.log);
    put('a.ndjson', toNdjson([atSecond(1), atSecond(2)]));
    await expect.poll(() => namesIn('done'), { timeout: 30_000 }).toEqual(['a.ndjson']);
    expect(await count('readings')).toBe(2);
    const metrics = await (await fetch(`${running.url}/metrics`)).text();
    expect(metrics).toContain('slipdrift_watched_files_total{fate="done"} 1');
    await running.stop();
  });
});
