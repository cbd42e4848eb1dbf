import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { type AsyncBuffer, parquetMetadataAsync, parquetReadObjects, parquetSchema } from 'hyparquet';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { notebookViews } from '#db/notebook/views.ts';
import type { RowFilter } from '#db/queries/read-notebook-rows.ts';
import { programActor } from '#server/services/actor.ts';
import { createExportDesk } from '#server/services/export/export-desk.ts';
import { type ExportFormat, exportTable, findExport } from '#server/services/export/export-table.ts';
import { runSlipdrift } from '#tests/helpers/run-slipdrift.ts';
import { plainEnd, sendPlainFleet } from '#tests/helpers/send-plain-fleet.ts';
import { signInAs } from '#tests/helpers/sign-in.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';
import { makeTemporaryFolder } from '#tests/helpers/temporary-folder.ts';

let app: TestApp;
let folder: string;
beforeAll(async () => {
  folder = makeTemporaryFolder();
  app = await startApp({}, plainEnd);
  await sendPlainFleet(app);
  const lives = [
    {
      vehicle: 'P-02',
      fitted_km: 1_000,
      source: 'original',
      removed_km: 70_000.5,
      mode: '=HYPERLINK("x")',
      ended: 'failed',
    },
    {
      vehicle: 'P-02',
      fitted_km: 70_000.5,
      fitted_at: '2026-01-05T06:07:08.009Z',
      source: 'rebuilt',
    },
    { vehicle: 'Q-01', fitted_km: 0, source: 'new', supplier: '変速機 é' },
  ];
  expect((await app.post('/api/lives', lives)).status).toBe(200);
  // Two exports tell the same only where nothing is still to be built anew.
  expect((await app.post('/api/assess', {})).status).toBe(200);
  // As an older program may have let it in.
  await app.client`update lives set supplier = ${'Brae, "the works"\r\nnorth'} where source = 'rebuilt'`;
});
afterAll(async () => {
  await app?.stop();
  rmSync(folder, { recursive: true });
});

const all: RowFilter = { platforms: [], depots: [], seenDepots: null, since: null };

async function write(table: string, format: ExportFormat, filter: Partial<RowFilter> = {}): Promise<Buffer> {
  const narrowed = { ...all, ...filter };
  const pieces: Buffer[] = [];
  const view = findExport(table, narrowed);
  for await (const piece of exportTable(app.client, view, narrowed, { format, now: plainEnd }))
    pieces.push(piece);
  return Buffer.concat(pieces);
}

const readCsv = (text: Buffer): Record<string, string>[] => parse(text, { columns: true });
const toFile = (bytes: Buffer): AsyncBuffer => {
  const { buffer, byteOffset, byteLength } = bytes;
  const own = buffer.slice(byteOffset, byteOffset + byteLength) as ArrayBuffer;
  return { byteLength, slice: (from, to) => own.slice(from, to) };
};

describe('a table as CSV', () => {
  it('has its columns in a header, quotes what needs it, and disarms formulas', async () => {
    const text = await write('lives', 'csv');
    const rows = readCsv(text);
    const view = notebookViews.find(({ name }) => name === 'lives');
    expect(Object.keys(rows[0] ?? {})).toEqual(view?.columns.map(({ name }) => name));
    expect(rows).toMatchObject([
      { vehicle: 'P-02', life: '1', removed_km: '70000.5', mode: `'=HYPERLINK("x")`, fitted_at: '' },
      {
        vehicle: 'P-02',
        life: '2',
        supplier: 'Brae, "the works"\r\nnorth',
        fitted_at: '2026-01-05T06:07:08.009Z',
      },
      { vehicle: 'Q-01', supplier: '変速機 é', converter_km: expect.stringMatching(/^\d+/) },
    ]);
    expect(text.toString().split('\r\n')[0]).not.toContain('"');
  });

  it('has every stretch once, in order, as the database has it', async () => {
    const rows = readCsv(await write('stretches', 'csv'));
    const [stored] = await app.client`select count(*) as n, sum(n) as usable from stretches`;
    expect(rows.length).toBe(stored?.n);
    expect(rows.reduce((sum, { n }) => sum + Number(n), 0)).toBe(Number(stored?.usable));
    const places = rows.map(({ vehicle, life, band, stretch }) => [vehicle, life, band, stretch].join());
    expect(new Set(places).size).toBe(rows.length);
    expect(rows.find(({ band }) => band === '-1')).toMatchObject({ band_from_pct: '', band_to_pct: '' });
    for (const { band, band_from_pct: from, band_to_pct: to, duty_pct: duty } of rows)
      if (band !== '-1')
        expect([Number(from) <= Number(duty), Number(duty) <= Number(to)]).toEqual([true, true]);
  });

  it('is narrowed by platform, depot and day, and to the depots that somebody sees', async () => {
    const vehicles = async (filter: Partial<RowFilter>) => [
      ...new Set(readCsv(await write('stretches', 'csv', filter)).map(({ vehicle }) => vehicle)),
    ];
    expect(await vehicles({ platforms: ['q-type'] })).toHaveLength(8);
    expect(await vehicles({ platforms: ['q-type'], depots: ['north'] })).toEqual([
      'Q-01',
      'Q-03',
      'Q-05',
      'Q-07',
    ]);
    expect(await vehicles({ depots: ['north'], seenDepots: ['south'] })).toEqual([]);
    const since = new Date('2026-02-20T00:00:00Z');
    const late = readCsv(await write('stretches', 'csv', { since }));
    const [stored] = await app.client`select count(*) as n from stretches where last_at >= ${since}`;
    expect(late.length).toBe(stored?.n);
    expect(late.length).toBeGreaterThan(0);
    expect(() => findExport('depots', { ...all, since })).toThrow('cannot be narrowed by since');
    expect(() => findExport('people', all)).toThrow('There is no table people');
  });
});

describe('a table as Parquet', () => {
  it('gives back to another reader what CSV gives, table for table, with its types', async () => {
    for (const view of notebookViews) {
      const file = toFile(await write(view.name, 'parquet'));
      const rows = await parquetReadObjects({ file });
      const lines = readCsv(await write(view.name, 'csv'));
      expect([view.name, rows.length]).toEqual([view.name, lines.length]);
      const texts = rows.map((row) => view.columns.map(({ name, type }) => sayValue(row[name], type)));
      const cells = lines.map((line) => view.columns.map(({ name }) => line[name]?.replace(/^'(?==)/, '')));
      expect(texts).toEqual(cells);
    }
  });

  it('says in the file what each column is', async () => {
    const file = toFile(await write('stretches', 'parquet'));
    const metadata = await parquetMetadataAsync(file);
    const said = new Map(metadata.key_value_metadata?.map(({ key, value }) => [key, value]));
    expect(JSON.parse(said.get('slipdrift.columns') ?? '')).toContainEqual({
      name: 'scale_rpm',
      unit: 'rpm',
      meaning: 'robust scale of slip',
    });
    expect(said.get('slipdrift.written_at')).toBe(plainEnd.toISOString());
    const types = new Map(
      parquetSchema(metadata).children.map(({ element }) => [
        element.name,
        [element.type, element.logical_type ?? null],
      ]),
    );
    expect(types.get('last_at')).toEqual([
      'INT64',
      { type: 'TIMESTAMP', isAdjustedToUTC: true, unit: 'MILLIS' },
    ]);
    expect(types.get('n')).toEqual(['INT32', null]);
    expect(types.get('slip_rpm')).toEqual(['DOUBLE', null]);
    expect(types.get('vehicle')).toEqual(['BYTE_ARRAY', { type: 'STRING' }]);
  });

  it('keeps rows in groups that fit into memory', async () => {
    const narrowed = { ...all, platforms: ['p-type'] };
    const view = findExport('stretches', narrowed);
    const more = { ...view, from: `${view.from} cross join generate_series(1, 60) again` };
    const pieces: Buffer[] = [];
    const bytes = exportTable(app.client, more, narrowed, { format: 'parquet', now: plainEnd });
    for await (const piece of bytes) pieces.push(piece);
    const { row_groups: groups, num_rows: rows } = await parquetMetadataAsync(toFile(Buffer.concat(pieces)));
    expect(Number(rows)).toBeGreaterThan(60_000);
    expect(groups.map((group) => Number(group.num_rows)).slice(0, -1)).toEqual(
      Array.from({ length: pieces.length - 1 }, () => 50_000),
    );
  });
});

/** A value as CSV has it. */
function sayValue(value: unknown, type: string): string {
  if (value === null || value === undefined) return '';
  if (type === 'day') return (value as Date).toISOString().slice(0, 10);
  if (value instanceof Date) return value.toISOString();
  if (Array.isArray(value)) return value.join(typeof value[0] === 'string' ? ' · ' : ' ');
  // A 4-byte float has more digits as a double than PostgreSQL prints.
  if (type === 'real') return String(Number((value as number).toPrecision(7)));
  return typeof value === 'object' ? JSON.stringify(value) : String(value);
}

describe('GET /api/export', () => {
  it('gives the file of the command, to keys and people, of the depots that they see', async () => {
    const answer = await app.get('/api/export/stretches.csv?platform=q-type&since=2026-02-01');
    expect([answer.status, answer.headers.get('content-disposition')]).toEqual([
      200,
      'attachment; filename="slipdrift-stretches-2026-03-04.csv"',
    ]);
    const since = new Date('2026-02-01T00:00:00Z');
    expect(Buffer.from(await answer.arrayBuffer())).toEqual(
      await write('stretches', 'csv', { platforms: ['q-type'], since }),
    );
    const { headers } = await signInAs(app, 'analyst', { depots: ['south'] });
    const parquet = await fetch(`${app.url}/api/export/assessments.parquet`, { headers });
    expect(parquet.headers.get('content-type')).toBe('application/vnd.apache.parquet');
    const rows = await parquetReadObjects({ file: toFile(Buffer.from(await parquet.arrayBuffer())) });
    expect([rows.length, new Set(rows.map(({ depot }) => depot))]).toEqual([8, new Set(['south'])]);
    for (const path of [
      'people.csv',
      'lives.xlsx',
      'lives.csv?depot=nowhere',
      'lives.csv?since=2026-02-31',
    ]) {
      const refused = await app.get(`/api/export/${path}`);
      expect([path, refused.status, (await refused.json()).code]).toEqual([path, 400, 'invalid_request']);
    }
  });

  it('writes two at once, and gives up on whoever stops reading', async () => {
    const desk = createExportDesk(50);
    const ctx = { ...app.running.context, actor: programActor('test') };
    const begun = [await desk.open(ctx, 'stretches.csv', {}), await desk.open(ctx, 'stretches.csv', {})];
    await expect(desk.open(ctx, 'lives.csv', {})).rejects.toMatchObject({ code: 'busy' });
    const ended = begun.map((stream) => new Promise((settle) => stream.once('close', settle)));
    for (const stream of begun) stream.read(0);
    await Promise.all(ended);
    const again = await desk.open(ctx, 'lives.csv', {});
    expect(readCsv(Buffer.concat(await again.toArray()))).toHaveLength(3);
  });
});

describe('slipdrift export', () => {
  async function run(...args: string[]) {
    const program = runSlipdrift(['export', ...args], { DATABASE_URL: app.databaseUrl });
    let out = '';
    program.child.stdout?.on('data', (text: string) => {
      out += text;
    });
    return { code: await program.ended, out, said: program.output() };
  }

  it('writes a file whole, beside a server that runs, and overwrites none unasked', async () => {
    const path = join(folder, 'assessments.parquet');
    const first = await run('assessments', '--out', path);
    expect(first.code, first.said).toBe(0);
    expect(first.said).toContain('Wrote 16 rows of assessments into');
    expect(existsSync(`${path}.part`)).toBe(false);
    const rows = await parquetReadObjects({ file: toFile(readFileSync(path)) });
    expect(rows.map(({ rank }) => rank)).toEqual(Array.from({ length: 16 }, (_, i) => i + 1));
    writeFileSync(path, 'precious');
    const again = await run('assessments', '--out', path);
    expect([again.code, readFileSync(path, 'utf8')]).toEqual([1, 'precious']);
    expect(again.said).toContain('exists. Nothing was changed');
  });

  it('writes to standard output, and nothing else there', async () => {
    const { code, out, said } = await run('lives', '--out', '-', '--platform', 'q-type');
    expect(code).toBe(0);
    expect(readCsv(Buffer.from(out))).toMatchObject([{ vehicle: 'Q-01' }]);
    expect(said).toContain('Wrote 1 rows of lives.');
  });

  it('tells a wrong call from one that failed, and leaves nothing behind', async () => {
    const path = join(folder, 'none.csv');
    expect((await run('people', '--out', path)).code).toBe(2);
    const unknown = await run('lives', '--out', path, '--depot', 'nowhere');
    expect(unknown.code).toBe(1);
    expect(unknown.said).toContain(
      'There is no depot nowhere. Nothing was written; these are known: north, south',
    );
    expect([existsSync(path), existsSync(`${path}.part`)]).toEqual([false, false]);
  });
});
