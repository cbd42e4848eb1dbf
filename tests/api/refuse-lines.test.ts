import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { makeReading, minutesLater } from '#tests/helpers/make-reading.ts';
import { type SmallIntake, startSmallIntake } from '#tests/helpers/small-intake.ts';

const NDJSON = { 'content-type': 'application/x-ndjson' };

let app: SmallIntake;
beforeAll(async () => {
  app = await startSmallIntake();
});
afterAll(() => app.stop());
beforeEach(() => app.empty());

/** A good line before and after: both must be stored, and the one between refused. */
async function expectRefused(line: string, refusal: { field: string; message: unknown }) {
  const good = [makeReading({ vehicle: 'before' }), makeReading({ vehicle: 'after' })].map((value) =>
    JSON.stringify(value),
  );
  const { status, reply } = await app.deliver(`${good[0]}\n${line}\n${good[1]}\n`, NDJSON);
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
    ['null for a temperature', { fluid_c: null }, 'fluid_c', 'must be a number in degC'],
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
    expect((await app.deliver([makeReading({ at: ahead(23.9) })])).reply).toMatchObject({ stored: 1 });
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
    const { reply } = await app.deliver(new Blob([body]), NDJSON);
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
    const { reply } = await app.deliver(lines.join('\n'), NDJSON);
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
    const { reply } = await app.deliver('{"vehicle":"a\\u0000\\ud800","at":\0}\n{"\\u0000": NaN}', NDJSON);
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
    const { status, reply } = await app.deliver(
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

it('lives on after all that', async () => {
  expect((await app.get('/health/ready')).status).toBe(200);
  expect((await app.deliver([makeReading()])).reply).toMatchObject({ stored: 1 });
});
