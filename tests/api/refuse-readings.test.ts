import { connect } from 'node:net';
import { gzipSync } from 'node:zlib';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import type { BrokenDelivery } from '#server/contract/receipts.ts';
import { makeReading, minutesLater, toNdjson } from '#tests/helpers/make-reading.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';

const NDJSON = { 'content-type': 'application/x-ndjson' };
const CSV = { 'content-type': 'text/csv' };
const MIB = 1_048_576;

let app: TestApp;
beforeAll(async () => {
  app = await startApp({ maxBodyBytes: 2 * MIB });
});
afterAll(() => app.stop());
beforeEach(async () => {
  await app.client`truncate readings, receipts, refused_lines, touched_vehicles, lives, vehicles`;
});

async function deliver(body: unknown, headers: Record<string, string> = {}, query = '') {
  const answer = await app.post(`/api/readings${query}`, body, headers);
  return { status: answer.status, type: answer.headers.get('content-type'), reply: await answer.json() };
}

async function countReadings(): Promise<number> {
  const [row] = await app.client`select count(*) as n from readings`;
  return Number(row?.n);
}

/** A good line before and after: both must be stored, and the one between refused. */
async function expectRefused(line: string, refusal: { field: string; message: unknown }) {
  const good = [makeReading({ vehicle: 'before' }), makeReading({ vehicle: 'after' })].map((value) =>
    JSON.stringify(value),
  );
  const { status, reply } = await deliver(`${good[0]}\n${line}\n${good[1]}\n`, NDJSON);
  expect({ status, stored: reply.stored, refused: reply.refused }).toEqual({
    status: 200,
    stored: 2,
    refused: 1,
  });
  expect(reply.refusals).toContainEqual({ line: 2, ...refusal });
  return reply;
}

describe('a line is refused, and those around it stored, when it has', () => {
  it.each<[string, Record<string, unknown>, string, unknown]>([
    ['a text for a number', { slip_rpm: '18' }, 'slip_rpm', 'must be a number in rpm'],
    ['a number for the vehicle', { vehicle: 1207 }, 'vehicle', 'must be text'],
    ['null for a field', { duty_pct: null }, 'duty_pct', 'must be a number in %'],
    ['no vehicle', { vehicle: undefined }, 'vehicle', 'is missing'],
    ['a blank vehicle', { vehicle: '  ' }, 'vehicle', 'must not be empty'],
    ['a vehicle of 65 characters', { vehicle: 'x'.repeat(65) }, 'vehicle', 'must have at most 64 characters'],
    ['NUL in the vehicle', { vehicle: 'a\0b' }, 'vehicle', 'must not contain control characters'],
    [
      'half a character in the vehicle',
      { vehicle: 'a\ud800' },
      'vehicle',
      'must not contain control characters',
    ],
    ['no time', { at: undefined }, 'at', 'is missing'],
    ['a time without zone', { at: '2026-03-04T05:06:07' }, 'at', expect.stringContaining('RFC 3339')],
    ['a day that does not exist', { at: '2026-02-30T05:06:07Z' }, 'at', expect.stringContaining('RFC 3339')],
    ['a time before 1990', { at: '1989-12-31T23:59:59Z' }, 'at', 'is before 1990'],
    ['no duty', { duty_pct: undefined }, 'duty_pct', 'is missing'],
    ['a duty over 100 %', { duty_pct: 100.1 }, 'duty_pct', 'must be at most 100 %'],
    ['an absurd temperature', { fluid_c: 900 }, 'fluid_c', 'must be at most 250 degC'],
    ['an absurd odometer', { odometer_km: -1 }, 'odometer_km', 'must be at least 0 km'],
    ['both odometers', { odometer_mi: 1 }, 'odometer_km', 'and odometer_mi are both given; send one of them'],
    ['no odometer', { odometer_km: undefined }, 'odometer_km', 'is missing (or give odometer_mi)'],
    ['both temperatures', { fluid_f: 180 }, 'fluid_c', 'and fluid_f are both given; send one of them'],
    ['no temperature', { fluid_c: undefined }, 'fluid_c', 'is missing (or give fluid_f)'],
    [
      'both road speeds',
      { speed_kmh: 1, speed_mph: 1 },
      'speed_kmh',
      'and speed_mph are both given; send one of them',
    ],
    [
      'no slip and one speed',
      { slip_rpm: undefined, engine_rpm: 1500 },
      'slip_rpm',
      'is missing (or give engine_rpm and turbine_rpm)',
    ],
    ['half a gear', { gear: 1.5 }, 'gear', 'must be a whole number'],
    ['a text for a truth value', { shifting: 'no' }, 'shifting', 'must be true or false'],
    ['a number among the codes', { codes: ['P0741', 7] }, 'codes.1', 'must be text'],
    ['NUL among the codes', { codes: ['P\0'] }, 'codes.0', 'must not contain control characters'],
  ])('%s', async (_, changes, field, message) => {
    await expectRefused(JSON.stringify(makeReading(changes)), { field, message });
  });

  it('a time more than 24 hours ahead', async () => {
    const ahead = (hours: number) => new Date(Date.now() + hours * 3_600_000).toISOString();
    expect((await deliver([makeReading({ at: ahead(23.9) })])).reply).toMatchObject({ stored: 1 });
    await expectRefused(JSON.stringify(makeReading({ at: ahead(24.1) })), {
      field: 'at',
      message: expect.stringMatching(/^is more than 24 hours ahead of the server, whose clock says \d{4}-/),
    });
  });

  it.each([
    [
      'NaN',
      '"slip_rpm":18.25',
      '"slip_rpm": NaN',
      { field: 'slip_rpm', message: 'must be a number, not NaN' },
    ],
    [
      'Infinity',
      '"fluid_c":84.5',
      '"fluid_c":-Infinity',
      { field: 'fluid_c', message: 'must be a number, not -Infinity' },
    ],
    [
      'a number too large for a double',
      '"fluid_c":84.5',
      '"fluid_c":1e999',
      { field: 'fluid_c', message: 'must be a number in degC' },
    ],
    [
      'a comma too many',
      '"fluid_c":84.5',
      '"fluid_c":84.5,',
      { field: '', message: expect.stringMatching(/^is not JSON: .* at character \d+$/) },
    ],
    ['a missing brace', '84.5}', '84.5', { field: '', message: 'is not JSON: it ends too early' }],
  ])('%s', async (_, from, to, refusal) => {
    await expectRefused(JSON.stringify(makeReading()).replace(from, to), refusal);
  });

  it.each(['7', 'null', '"text"', '[1]'])('%s in the place of an object', async (line) => {
    await expectRefused(line, { field: '', message: 'must be an object with the fields of a reading' });
  });

  it('bytes that are not UTF-8', async () => {
    const good = JSON.stringify(makeReading());
    const body = Buffer.concat([
      Buffer.from(`${good}\n`),
      Buffer.from([0x7b, 0xff, 0xfe, 0x0a]),
      Buffer.from(good.replace('05:06', '05:07')),
    ]);
    const { reply } = await deliver(new Blob([body]), NDJSON);
    expect(reply).toMatchObject({
      stored: 2,
      refused: 1,
      refusals: [{ line: 2, field: '', message: 'is not UTF-8 text' }],
    });
  });

  it('over 64 KiB', async () => {
    const { receipt } = await expectRefused(JSON.stringify(makeReading({ note: 'x'.repeat(200_000) })), {
      field: '',
      message: 'is longer than 64 KiB',
    });
    const { refused_lines } = await (await app.get(`/api/receipts/${receipt}`)).json();
    expect(refused_lines[0].raw).toMatch(/^\{"vehicle":"B-1207".{4000,}cut off here\]$/);
    expect(refused_lines[0].raw.length).toBeLessThanOrEqual(4096);
  });

  it('faults in several fields, each of them named', async () => {
    const reply = await expectRefused('{"vehicle":"B-1","duty_pct":"x"}', {
      field: 'at',
      message: 'is missing',
    });
    expect(reply.refusals.map(({ field }: { field: string }) => field)).toEqual(
      expect.arrayContaining(['at', 'duty_pct']),
    );
  });
});

describe('refused lines', () => {
  it('are kept as they came, and told page by page', async () => {
    const lines = Array.from({ length: 45 }, (_, i) => `{"vehicle":"B-1","n":${i}}`);
    const { reply } = await deliver(lines.join('\n'), NDJSON);
    expect(reply).toMatchObject({ received: 45, stored: 0, refused: 45 });
    expect(reply.refusals).toHaveLength(20);
    const page = await (await app.get(`/api/receipts/${reply.receipt}?limit=10&offset=40`)).json();
    expect(page).toMatchObject({
      complete: true,
      content_type: 'application/x-ndjson',
      refused: 45,
      refused_lines_total: 45,
    });
    expect(page.refused_lines.map(({ line, raw }: { line: number; raw: string }) => [line, raw])).toEqual(
      [40, 41, 42, 43, 44].map((i) => [i + 1, lines[i]]),
    );
    const [kept] = await app.client`select unit from refused_lines limit 1`;
    expect(kept).toEqual({ unit: 'B-1' });
  });

  it('may hold what JSON of the database cannot', async () => {
    const { reply } = await deliver('{"vehicle":"a\\u0000\\ud800","at":\0}\n{"\\u0000": NaN}', NDJSON);
    expect(reply).toMatchObject({ refused: 2 });
  });

  it('of a receipt that does not exist are a clear answer', async () => {
    expect((await app.get('/api/receipts/c0ffee00-0000-4000-8000-000000000000')).status).toBe(404);
    const answer = await app.get('/api/receipts/7');
    expect(answer.status).toBe(400);
    expect(await answer.json()).toMatchObject({
      errors: [{ field: 'id', message: 'must be the id of a receipt' }],
    });
  });
});

describe('a JSON element', () => {
  it('that is broken is refused by its number, and the others are stored', async () => {
    const good = [1, 2].map((i) => JSON.stringify(makeReading({ at: minutesLater(i) })));
    const { status, reply } = await deliver(
      `[${good[0]}, {"vehicle": "x", "slip_rpm": NaN}, {oops}, ${good[1]},]`,
    );
    expect({ status, stored: reply.stored, refused: reply.refused }).toEqual({
      status: 200,
      stored: 2,
      refused: 3,
    });
    expect(reply.refusals).toEqual([
      { line: 2, field: 'slip_rpm', message: 'must be a number, not NaN' },
      { line: 3, field: '', message: expect.stringContaining('is not JSON') },
      { line: 5, field: '', message: 'is empty: a comma too many' },
    ]);
  });
});

describe('a body that breaks off', () => {
  const good = Array.from({ length: 30 }, (_, i) => makeReading({ at: minutesLater(i) }));

  async function expectBroken(
    { status, type, reply }: { status: number; type: string | null; reply: BrokenDelivery },
    stored: number,
  ) {
    expect(status).toBe(400);
    expect(type).toBe('application/problem+json');
    expect(reply).toMatchObject({ code: 'body_broken', delivery: { stored } });
    const receipt = reply.delivery?.receipt ?? 'none';
    expect(reply.detail).toContain(receipt);
    const kept = await (await app.get(`/api/receipts/${receipt}`)).json();
    expect(kept).toMatchObject({ complete: false, stored });
    expect(await countReadings()).toBe(stored);
  }

  it('as JSON keeps the elements before', async () => {
    const text = JSON.stringify(good);
    await expectBroken(await deliver(text.slice(0, -30)), 29);
  });

  it('as gzip keeps the lines before, down to the last whole one', async () => {
    const whole = gzipSync(toNdjson(good));
    const cut = new Blob([whole.subarray(0, whole.length - 12)]);
    const answer = await deliver(cut, { ...NDJSON, 'content-encoding': 'gzip' });
    const stored: number = answer.reply.delivery.stored;
    expect(stored).toBeGreaterThanOrEqual(28);
    await expectBroken(answer, stored);
    const again = await deliver(new Blob([whole]), { ...NDJSON, 'content-encoding': 'gzip' });
    expect(again.reply).toMatchObject({ stored: 30 - stored, duplicate: stored, conflicting: 0 });
  });

  it('as text where gzip was said stores nothing', async () => {
    const { status, reply } = await deliver(toNdjson(good), { ...NDJSON, 'content-encoding': 'gzip' });
    expect(status).toBe(400);
    expect(reply).toMatchObject({
      code: 'body_broken',
      detail: expect.stringContaining('Nothing was stored'),
    });
  });

  it('as gzip where nothing was said is told so', async () => {
    const { status, reply } = await deliver(new Blob([gzipSync(toNdjson(good))]), NDJSON);
    expect(status).toBe(400);
    expect(reply.detail).toContain('Content-Encoding: gzip');
  });

  it('with its connection keeps the whole lines before, never half a one', async () => {
    const { port } = new URL(app.url);
    const text = `vehicle,at,odometer_km,slip_rpm,duty_pct,fluid_c\n${good.map((r) => `B-1,${r.at},1000,12,70,80`).join('\n')}`;
    await new Promise<void>((resolve) => {
      const socket = connect(Number(port), '127.0.0.1', () => {
        socket.write(
          `POST /api/readings HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Type: text/csv\r\nContent-Length: ${text.length + 500}\r\n\r\n${text.slice(0, -1)}`,
        );
        setTimeout(() => socket.destroy(), 200);
      });
      socket.on('close', () => resolve());
    });
    await expect.poll(countReadings, { timeout: 10_000 }).toBe(29);
    const [receipt] = await app.client`select complete, received, stored, refused, status from receipts`;
    expect(receipt).toEqual({ complete: false, received: 30, stored: 29, refused: 1, status: 400 });
  });

  it('at the limit keeps the lines before it', async () => {
    const lines = Array.from({ length: 20_000 }, (_, i) => makeReading({ vehicle: `V-${i}` }));
    const { status, reply } = await deliver(toNdjson(lines), NDJSON);
    expect(status).toBe(413);
    expect(reply).toMatchObject({
      code: 'body_too_large',
      detail: expect.stringContaining('larger than the limit of 2 MiB'),
    });
    expect(reply.delivery.stored).toBeGreaterThan(1000);
    expect(await countReadings()).toBe(reply.delivery.stored);
  });

  it('because it unfolds over the limit is told so', async () => {
    const bomb = gzipSync(Buffer.alloc(64 * MIB, ' '));
    const { status, reply } = await deliver(new Blob([bomb]), { ...NDJSON, 'content-encoding': 'gzip' });
    expect(status).toBe(413);
    expect(reply.detail).toContain('unfolded larger than the limit of 2 MiB');
  });
});

describe('a body that cannot be read at all', () => {
  it.each([
    ['', {}],
    ['  \n ', {}],
    ['', NDJSON],
    ['\n\n', NDJSON],
    ['', CSV],
  ])('because it is empty (%j)', async (body, headers) => {
    const { status, reply } = await deliver(body, headers);
    expect(status).toBe(400);
    expect(reply).toMatchObject({ code: 'body_empty', detail: expect.stringContaining('The body is empty') });
  });

  it.each([
    ['{"vehicle":"B-1"}'],
    ['"text"'],
    ['{"readings": 7}'],
    ['vehicle,at'],
    ['[] []'],
    ['{"a":[{}]}'],
  ])('because it is not an array of readings: %s', async (body) => {
    const { status, reply } = await deliver(body);
    expect(status).toBe(400);
    expect(reply).toMatchObject({
      code: 'body_broken',
      detail: expect.stringContaining('{"readings": [...]}'),
    });
  });

  it.each([
    ['text/plain', 'text/plain is not understood'],
    ['application/xml', 'application/xml is not understood'],
    ['text/csv; charset=iso-8859-1', 'has the charset iso-8859-1'],
  ])('because its type is %s', async (type, message) => {
    const { status, reply } = await deliver('x', { 'content-type': type });
    expect(status).toBe(415);
    expect(reply.detail).toContain(message);
    expect(reply.detail).toContain('Send application/json, application/x-ndjson, text/csv');
  });

  it('because its encoding is not known', async () => {
    const { status, reply } = await deliver('x', { ...CSV, 'content-encoding': 'br' });
    expect(status).toBe(415);
    expect(reply).toMatchObject({ errors: [{ field: 'Content-Encoding', message: 'br is not understood' }] });
  });
});

describe('a CSV header', () => {
  const ROW = 'B-1,2026-03-04T05:06:07Z,1000,12.5,70,80';

  it('that is not there is told, and nothing is stored', async () => {
    const { status, reply } = await deliver(`${ROW}\n${ROW}\n`, CSV);
    expect(status).toBe(400);
    expect(reply).toMatchObject({
      code: 'invalid_request',
      errors: [{ line: 1, field: '', message: 'does not name the columns' }],
    });
    expect(await countReadings()).toBe(0);
  });

  it('tells each column that is unknown, missing or twice', async () => {
    const { status, reply } = await deliver(
      `vehicle,at,odometer,slip_rpm,duty_pct,duty_pct,Fluid_C,,engine\n${ROW}\n`,
      CSV,
    );
    expect(status).toBe(400);
    expect(reply.errors).toEqual([
      { line: 1, field: 'odometer', message: 'is not a known column' },
      { line: 1, field: 'duty_pct', message: 'is named twice' },
      { line: 1, field: 'Fluid_C', message: 'is not a known column; did you mean fluid_c?' },
      { line: 1, field: '', message: 'column 8 has no name' },
      { line: 1, field: 'engine', message: 'is not a known column' },
      { line: 1, field: 'odometer_km', message: 'is missing (or odometer_mi)' },
      { line: 1, field: 'fluid_c', message: 'is missing (or fluid_f)' },
    ]);
  });

  it('with other columns is taken where they are to be left out', async () => {
    const text = `driver,vehicle,at,odometer_km,slip_rpm,duty_pct,fluid_c\nJ,${ROW}\n`;
    expect((await deliver(text, CSV)).reply.errors).toEqual([
      { line: 1, field: 'driver', message: 'is not a known column' },
    ]);
    expect((await deliver(text, CSV, '?unknown_columns=ignore')).reply).toMatchObject({ stored: 1 });
    expect((await deliver(text, CSV, '?unknown_columns=maybe')).status).toBe(400);
  });

  it.each([[';'], ['\t']])('separated by %j is told so', async (separator) => {
    const { status, reply } = await deliver(
      `vehicle,at,odometer_km,slip_rpm,duty_pct,fluid_c\n${ROW}`.replaceAll(',', separator),
      CSV,
    );
    expect(status).toBe(400);
    expect(reply.errors[0].message).toContain('use commas');
  });

  it('that is right lets lines be refused one by one, by their physical line', async () => {
    const text = [
      'vehicle,at,odometer_km,slip_rpm,duty_pct,fluid_c',
      ROW,
      'B-1,2026-03-04T05:07:07Z,1000,NaN,70,80',
      'B-1,2026-03-04T05:08:07Z,1000,12.5,70',
      '"two',
      'lines",2026-03-04T05:09:07Z,1000,12.5,70,80',
      'B-1,2026-03-04T05:10:07Z,0x10,12.5,70,80',
      'B-1,2026-03-04T05:11:07Z,,12.5,70,80',
      '"never closed,2026-03-04T05:12:07Z,1,12.5,70,80',
      ROW.replace('05:06', '05:13'),
    ].join('\n');
    const { reply } = await deliver(text, CSV);
    expect(reply).toMatchObject({ received: 8, stored: 2, refused: 6 });
    expect(reply.refusals).toEqual([
      { line: 3, field: 'slip_rpm', message: 'must be a number in rpm' },
      { line: 4, field: '', message: 'has 5 cells, but the header names 6' },
      { line: 5, field: 'vehicle', message: 'must not contain control characters' },
      { line: 7, field: 'odometer_km', message: 'must be a number in km' },
      { line: 8, field: 'odometer_km', message: 'is missing (or give odometer_mi)' },
      { line: 9, field: '', message: 'opens a quote that is never closed' },
    ]);
  });
});

it('lives on after all that', async () => {
  expect((await app.get('/health/ready')).status).toBe(200);
  expect((await deliver([makeReading()])).reply).toMatchObject({ stored: 1 });
});
