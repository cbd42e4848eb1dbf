import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { RawClient } from '#db/client.ts';
import { type Look, look as lookSchema } from '#server/contract/looks.ts';
import type { Mapping, MappingInput } from '#server/contract/mappings.ts';
import { createTestDatabase, type TestDatabase } from '#tests/helpers/database.ts';
import { runSlipdrift } from '#tests/helpers/run-slipdrift.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';
import { TEST_KEY } from '#tests/helpers/test-key.ts';
import { type Foreign, foreignFiles } from './foreign-files.ts';

let app: TestApp;
let own: TestDatabase;
let folder: string;
beforeAll(async () => {
  [app, own, folder] = await Promise.all([
    startApp(),
    createTestDatabase(),
    mkdtemp(join(tmpdir(), 'slipdrift-mapped-')),
  ]);
});
afterAll(async () => {
  await Promise.all([app.stop(), own.drop(), rm(folder, { recursive: true, force: true })]);
});

async function lookAt(name: string, bytes: Buffer, settings: object, whole = true) {
  const form = new FormData();
  form.append('settings', JSON.stringify({ whole, ...settings }));
  form.append('sample', new Blob([new Uint8Array(bytes)]), name);
  return fetch(`${app.url}/api/readings/look`, {
    method: 'POST',
    headers: { authorization: `Bearer ${TEST_KEY}` },
    body: form,
  });
}

async function proposed(name: string, bytes: Buffer, settings: object, whole = true): Promise<Look> {
  const answer = await lookAt(name, bytes, settings, whole);
  const said = await answer.json();
  expect(said, JSON.stringify(said)).toMatchObject({ lines: expect.any(Number) });
  return lookSchema.parse(said);
}

const save = (name: string, mapping: MappingInput | Mapping) =>
  fetch(`${app.url}/api/mappings/${encodeURIComponent(name)}`, {
    method: 'PUT',
    headers: { authorization: `Bearer ${TEST_KEY}`, 'content-type': 'application/json' },
    body: JSON.stringify(mapping),
  });

const send = async (query: Record<string, string>, body: Buffer | string, headers = {}) => {
  const answer = await app.post(
    `/api/readings?${new URLSearchParams(query)}`,
    new Blob([typeof body === 'string' ? body : new Uint8Array(body)]),
    { 'content-type': 'text/csv', ...headers },
  );
  return { status: answer.status, ...(await answer.json()) };
};

const stored = (client: RawClient, units: string[]) => client`
  select unit, to_char(at at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') as at,
    readings.odometer_km as km, slip_rpm as slip, duty_pct as duty, fluid_c as fluid, load_pct as load, speed_kmh as speed, gear, codes
  from readings join vehicles on vehicles.key = readings.vehicle
  where unit = any(${units}) order by unit, at`;

/** Numbers as four bytes hold them, which is how they are stored. */
const close = (rows: readonly object[]) =>
  rows.map((row) =>
    Object.fromEntries(
      Object.entries(row).map(([name, value]) => [
        name,
        typeof value === 'number' ? Math.fround(value) : value,
      ]),
    ),
  );

const cli = async (...args: string[]) => {
  const running = runSlipdrift(['import', ...args], { DATABASE_URL: own.url });
  return { code: await running.ended, said: running.output() };
};

describe.each(foreignFiles)('$habit', (one: Foreign) => {
  let mapping: Mapping;

  it('is understood without help, but for what only whoever brings it can say', async () => {
    const bare = await proposed(one.name, one.bytes, { given: {} });
    expect(bare.lacks.map(({ field }) => field)).toEqual(Object.keys(one.given));
    const found = await proposed(one.name, one.bytes, { given: one.given });
    expect(found.lacks).toEqual([]);
    expect(found).toMatchObject({ format: 'csv', gzip: false, own_form: false, ...one.counts });
    if (found.mapping === null) throw new Error('no mapping was proposed');
    mapping = found.mapping;
    expect(mapping).toMatchObject(one.mapping);
    expect(Object.fromEntries(mapping.columns.map(({ column, takes }) => [column, takes]))).toEqual(
      one.columns,
    );
    expect(Object.fromEntries(mapping.names.map(({ name, field }) => [name, field]))).toEqual(one.names);
    expect(found.doubts.map(({ message }) => message).join('\n')).toMatch(one.doubts);
    expect(found.faults.map(({ field, message, line }) => `${line} ${field} ${message}`)).toEqual(one.faults);
    expect(await stored(app.client, one.units)).toEqual([]);
  });

  it('is stored through the call, value by value, and refuses what it said it would', async () => {
    expect((await save(one.saved, mapping)).status).toBe(200);
    const reply = await send({ mapping: one.saved, file: one.name, ...one.given }, gzipSync(one.bytes), {
      'content-encoding': 'gzip',
    });
    expect(reply).toMatchObject({
      status: 200,
      received: one.counts.lines,
      stored: one.counts.good,
      refused: one.counts.bad,
      ...(one.rows === null ? {} : { rows: one.rows }),
    });
    expect(close(await stored(app.client, one.units))).toEqual(close(one.readings));
    const kept =
      await app.client`select line, raw from refused_lines where receipt = ${reply.receipt} order by line`;
    expect(kept).toEqual(one.refused);
    const [receipt] =
      await app.client`select file, read_with, ended_at from receipts where id = ${reply.receipt}`;
    expect(receipt).toMatchObject({
      file: one.name,
      read_with: { form: 'mapped', mapping: { layout: mapping.layout } },
    });
    expect(receipt?.ended_at).not.toBeNull();
  });

  it('is looked at, saved and stored by the command line', async () => {
    const path = join(folder, one.name);
    await writeFile(path, one.bytes);
    const flags = Object.entries(one.given).flatMap(([name, text]) => [`--${name}`, text]);
    const looked = await cli('--look', '--save-mapping', one.saved, ...flags, path);
    expect(looked.said).toContain(`${one.counts.good} would be taken, ${one.counts.bad} refused`);
    expect(looked.said).toContain(`Saved as '${one.saved}'`);
    expect(looked.code).toBe(0);
    const imported = await cli('--mapping', one.saved, ...flags, path);
    expect(imported.said).toContain(`${one.counts.good} stored, 0 there already, ${one.counts.bad} refused`);
    expect(imported.code).toBe(0);
    expect(close(await stored(own.client, one.units))).toEqual(close(one.readings));
  });
});

describe('a mapping', () => {
  const wide: MappingInput = {
    columns: [
      { column: 'bus', takes: 'vehicle' },
      { column: 't', takes: 'time' },
      { column: 'km', takes: 'odometer_km' },
      { column: 'slip', takes: 'slip_rpm' },
      { column: 'duty', takes: 'duty_pct' },
    ],
    time: { zone: 'UTC' },
  };

  it('that does not fit together is refused with every reason, and nothing is saved', async () => {
    const answer = await save('odd', {
      ...wide,
      columns: [
        { column: 'bus', takes: 'vehicle' },
        { column: 'bus', takes: 'odometer_km', unit: 'rpm' },
        { column: 'x', takes: 'engine_rpm' },
      ],
      names: [{ name: 'a', field: 'slip_rpm' }],
      time: { zone: 'Nowhere/Town' },
    });
    expect(answer.status).toBe(400);
    const { errors } = await answer.json();
    expect(errors.map(({ message }: { message: string }) => message)).toEqual([
      "the column 'bus' is taken twice",
      'has no column',
      'is no time zone such as Europe/Berlin or +02:00',
      'names of values are for the layout long alone',
      'have none for duty_pct, which a reading needs',
      'have none for slip_rpm, nor for both engine_rpm and turbine_rpm, from which slip comes',
      "'bus' cannot be in rpm: it can be in km, mi, m",
    ]);
    expect(await (await app.get('/api/mappings')).json()).not.toContainEqual(
      expect.objectContaining({ name: 'odd' }),
    );
  });

  it('is listed, changed, noted and deleted', async () => {
    expect((await save('plain', wide)).status).toBe(200);
    expect((await save('plain', { ...wide, separator: ';' })).status).toBe(200);
    const list = await (await app.get('/api/mappings')).json();
    expect(list.find(({ name }: { name: string }) => name === 'plain').mapping.separator).toBe(';');
    const gone = await fetch(`${app.url}/api/mappings/plain`, {
      method: 'DELETE',
      headers: { authorization: `Bearer ${TEST_KEY}` },
    });
    expect(gone.status).toBe(204);
    const noted =
      await app.client`select action, before, after from changes where subject = 'mapping' and subject_id = 'plain' order by id`;
    expect(noted.map(({ action }) => action)).toEqual(['created', 'changed', 'deleted']);
    expect(noted[1]).toMatchObject({ before: { separator: ',' }, after: { separator: ';' } });
    expect(await send({ mapping: 'plain' }, 'a,b\n')).toMatchObject({ status: 404, code: 'not_found' });
  });

  it('that cannot read a body refuses it before anything is stored', async () => {
    expect((await save('needs', { ...wide, time: {} })).status).toBe(200);
    const head = 'bus,t,km,slip,duty';
    const row = 'N-1,2026-03-04 05:06:07,1,2,3';
    expect(await send({ mapping: 'needs' }, `${head}\n${row}`)).toMatchObject({
      status: 400,
      errors: [{ field: 'zone', message: expect.stringContaining('must be given') }],
    });
    expect(await send({ mapping: 'needs', zone: 'Mars' }, `${head}\n${row}`)).toMatchObject({
      status: 400,
      errors: [{ field: 'zone', message: expect.stringContaining('no time zone') }],
    });
    expect(await send({ mapping: 'needs', zone: 'UTC' }, `bus,t,km,slip\n${row}`)).toMatchObject({
      status: 400,
      errors: [{ field: 'duty_pct', message: "is in the column 'duty', which the file has not" }],
    });
    expect(await send({ mapping: 'needs', date: '4.3.' }, head)).toMatchObject({
      status: 400,
      errors: [{ field: 'date' }],
    });
    expect(await send({ mapping: 'needs' }, '{}', { 'content-type': 'application/json' })).toMatchObject({
      status: 400,
      errors: [{ field: 'mapping', message: 'is for text/csv alone' }],
    });
    expect(await send({ mapping: 'needs', zone: 'UTC' }, '')).toMatchObject({ code: 'body_empty' });
    expect(await app.client`select from vehicles where unit = 'N-1'`).toHaveLength(0);
    expect(await send({ mapping: 'needs', zone: 'UTC' }, `${head}\n${row}`)).toMatchObject({ stored: 1 });
  });
});

describe('a look', () => {
  it('leaves out the line that its sample cuts, and stores no vehicle', async () => {
    const [first] = foreignFiles;
    const found = await proposed(
      first.name,
      first.bytes.subarray(0, first.bytes.length - 20),
      { given: first.given },
      false,
    );
    expect(found.whole).toBe(false);
    expect(found.lines).toBe(first.counts.lines - 1);
    expect(found.faults.every(({ message }) => !/breaks off|cells/.test(message))).toBe(true);
  });

  it('lists the names in the column that somebody takes for them, and keeps the doubts that still stand', async () => {
    const rows = [
      'who;wann;was;wieviel',
      ...Array.from({ length: 3 }, (_, i) => `7;04.03.2026 05:0${i};Schlupf;${i},5`),
    ];
    const bytes = Buffer.from(rows.join('\n'));
    const bare = await proposed('a.csv', bytes, { given: {} });
    expect(bare.mapping?.layout).toBe('wide');
    const mapping = {
      ...bare.mapping,
      layout: 'long',
      vehicle: 'column',
      columns: [
        { column: 'who', takes: 'vehicle' },
        { column: 'wann', takes: 'time' },
        { column: 'was', takes: 'name' },
        { column: 'wieviel', takes: 'value' },
      ],
    };
    const found = await proposed('a.csv', bytes, { given: {}, mapping });
    expect(found.names).toEqual([
      {
        name: 'Schlupf',
        values: 3,
        samples: ['0,5', '1,5', '2,5'],
        guess: { field: 'slip_rpm', unit: 'rpm' },
      },
    ]);
    expect(found.lacks.map(({ field }) => field)).toEqual(['names', 'names', 'names']);
  });

  it('reads our own form, NDJSON and JSON, and says which vehicles are known', async () => {
    const csv =
      'vehicle,at,odometer_km,slip_rpm,duty_pct\nL-9,2026-03-04T05:06:07Z,1,2,3\nL-9,2026-03-04T05:06:08Z,1,2,300\n';
    await app.post('/api/readings', [
      { vehicle: 'L-8', at: '2026-03-04T05:06:07Z', odometer_km: 1, slip_rpm: 2, duty_pct: 3 },
    ]);
    const own1 = await proposed('a.csv', gzipSync(csv), {});
    expect(own1).toMatchObject({ own_form: true, gzip: true, mapping: null, good: 1, bad: 1 });
    expect(own1.vehicles).toEqual([{ vehicle: 'L-9', readings: 1, known: false }]);
    const line = '{"vehicle":"L-8","at":"2026-03-04T05:06:09Z","odometer_mi":1,"slip_rpm":2,"duty_pct":3}';
    const ndjson = await proposed('a', Buffer.from(`${line}\n{"vehicle":`), {}, false);
    expect(ndjson).toMatchObject({ format: 'ndjson', good: 1, bad: 0 });
    expect(ndjson.rows[0]?.reading).toMatchObject({ vehicle: 'L-8', odometer_km: 1.609344, fluid_c: null });
    expect(ndjson.vehicles[0]?.known).toBe(true);
    expect(await proposed('a', Buffer.from(`[${line},{"veh`), {}, false)).toMatchObject({
      format: 'json',
      good: 1,
      bad: 0,
    });
  });

  it('says what a whole body would come to with the query that would store it', async () => {
    const [first] = foreignFiles;
    const query = new URLSearchParams({ mapping: first.saved, ...first.given });
    const answer = await app.post(`/api/readings/look?${query}`, new Blob([new Uint8Array(first.bytes)]), {
      'content-type': 'text/csv; charset=windows-1252',
    });
    expect(lookSchema.parse(await answer.json())).toMatchObject({ whole: true, ...first.counts, lacks: [] });
  });

  it.each([
    ['no settings', async () => lookAt('a.csv', Buffer.from('a'), { whole: 'x' }), 400],
    ['an unknown mapping', async () => lookAt('a.csv', Buffer.from('a'), { mapping_name: 'none' }), 404],
    [
      'no form data',
      async () => app.post('/api/readings/look', 'x', { 'content-type': 'multipart/form-data; boundary=a' }),
      400,
    ],
    ['another type', async () => app.post('/api/readings/look', 'x', { 'content-type': 'text/html' }), 415],
  ])('is declined with %s', async (_, ask, status) => {
    const answer = await ask();
    expect(answer.status).toBe(status);
    expect((await answer.json()).detail).toMatch(/\w/);
  });

  it('says of a file that is no text, UTF-16, empty or without rows what is wrong', async () => {
    const utf16 = await proposed('a.csv', Buffer.from('\ufeffa;b\n1;2\n', 'utf16le'), {});
    expect(utf16.lacks).toEqual([{ field: '', message: 'is UTF-16 text; save the file as UTF-8' }]);
    const empty = await proposed('a.csv', Buffer.from('\n'), {});
    expect(empty).toMatchObject({ mapping: null, lacks: [{ field: '', message: 'is empty' }] });
    const noRows = await proposed('a.csv', Buffer.from('vehicle;time;odo km\n'), {});
    expect(noRows).toMatchObject({
      mapping: null,
      lacks: [{ message: 'has one line of names of columns, and no row below it' }],
    });
  });
});
