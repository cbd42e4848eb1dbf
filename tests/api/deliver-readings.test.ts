import { gzipSync } from 'node:zlib';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { makeReading, minutesLater, toNdjson } from '#tests/helpers/make-reading.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';

const NDJSON = { 'content-type': 'application/x-ndjson' };
const CSV = { 'content-type': 'text/csv' };
const HEADER = 'vehicle,at,odometer_km,slip_rpm,duty_pct,fluid_c,load_pct,shifting,gear,codes';

let app: TestApp;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.stop());
beforeEach(async () => {
  await app.client`truncate readings, receipts, refused_lines, touched_vehicles, lives, vehicles, platforms cascade`;
});

async function deliver(body: unknown, headers: Record<string, string> = {}) {
  const answer = await app.post('/api/readings', body, headers);
  return { status: answer.status, reply: await answer.json() };
}

const stored = () => app.client`
  select v.unit, r.* from readings r join vehicles v on v.key = r.vehicle order by v.unit, r.at`;

describe('a delivery', () => {
  it('is stored from a JSON array', async () => {
    const { status, reply } = await deliver([makeReading(), makeReading({ vehicle: 'B-2' })]);
    expect(status).toBe(200);
    expect(reply).toEqual({
      receipt: expect.stringMatching(/^[0-9a-f-]{36}$/),
      received: 2,
      stored: 2,
      duplicate: 0,
      conflicting: 0,
      refused: 0,
      refusals: [],
      unknown_fields: [],
    });
    const [first] = await stored();
    expect(first).toMatchObject({
      unit: 'B-1207',
      odometer_km: 120_345.5,
      slip_rpm: 18.25,
      load_pct: null,
      codes: null,
    });
  });

  it('is stored from an object with the array readings, other members aside', async () => {
    const { reply } = await deliver({ gateway: { name: 'north [1]' }, readings: [makeReading()], n: 1 });
    expect(reply).toMatchObject({ received: 1, stored: 1 });
  });

  it('is told of fields that are none of ours, with the lines that had them', async () => {
    const { reply } = await deliver([
      makeReading({ load_pc: 50, driver: 'n 12' }),
      makeReading({ vehicle: 'B-2', load_pc: 51 }),
      { ...makeReading({ vehicle: 'B-3', other: 1 }), slip_rpm: 'much' },
    ]);
    expect(reply).toMatchObject({ stored: 2, refused: 1 });
    expect(reply.unknown_fields).toEqual([
      { field: 'load_pc', lines: 2 },
      { field: 'driver', lines: 1 },
    ]);
  });

  it('keeps at most 20 names of such fields, each short enough to store', async () => {
    const many = Object.fromEntries(Array.from({ length: 50 }, (_, i) => [`f${i}-${'x'.repeat(100)}\0`, i]));
    const { reply } = await deliver([makeReading(many)]);
    expect(reply.unknown_fields).toHaveLength(20);
    for (const { field } of reply.unknown_fields) expect(field.length).toBeLessThanOrEqual(64);
  });

  it('is stored from NDJSON with empty lines, Windows line ends and no newline at the end', async () => {
    const body = `\ufeff${JSON.stringify(makeReading())}\r\n\r\n${JSON.stringify(makeReading({ at: minutesLater(1) }))}`;
    const { reply } = await deliver(body, NDJSON);
    expect(reply).toMatchObject({ received: 2, stored: 2, refused: 0 });
  });

  it('is stored from CSV, where an empty cell is an absent field', async () => {
    const body = `${HEADER}\nB-1,2026-03-04T05:06:07Z,1000,12.5,70,80,,,,\n"B-1",2026-03-04T06:06:07+01:00,1000,12.5,70,80,55,true,4,P0741;P0742 U0100\n`;
    const { reply } = await deliver(body, CSV);
    expect(reply).toMatchObject({ received: 2, stored: 1, duplicate: 1, conflicting: 1 });
    const later = await deliver(body.replaceAll('T05', 'T07').replaceAll('T06', 'T09'), CSV);
    expect(later.reply).toMatchObject({ stored: 2 });
    const rows = await stored();
    expect(rows.at(-1)).toMatchObject({
      load_pct: 55,
      shifting: true,
      gear: 4,
      codes: ['P0741', 'P0742', 'U0100'],
    });
  });

  it.each([
    ['application/json', JSON.stringify([makeReading()])],
    ['application/x-ndjson', JSON.stringify(makeReading())],
    ['text/csv', `${HEADER}\nB-1,2026-03-04T05:06:07Z,1000,12.5,70,80,,,,`],
  ])('is stored from gzip %s', async (contentType, text) => {
    const body = new Blob([gzipSync(text)]);
    const { reply } = await deliver(body, { 'content-type': contentType, 'content-encoding': 'gzip' });
    expect(reply).toMatchObject({ received: 1, stored: 1 });
  });

  it('is converted from miles, Fahrenheit and two speeds', async () => {
    const { slip_rpm: _, odometer_km: __, fluid_c: ___, ...rest } = makeReading();
    await deliver([
      { ...rest, odometer_mi: 100_000, engine_rpm: 1480, turbine_rpm: 1450, fluid_f: 212, speed_mph: 50 },
    ]);
    const [row] = await stored();
    expect(row).toMatchObject({ odometer_km: 160_934.4, slip_rpm: 30, fluid_c: 100, speed_kmh: 80.4672 });
  });

  it('is stored with nothing but what is needed, what is not sent being unknown', async () => {
    const { fluid_c: _, ...least } = makeReading();
    const { reply } = await deliver([least]);
    expect(reply).toMatchObject({ stored: 1, refused: 0 });
    const lines = `vehicle,at,odometer_km,slip_rpm,duty_pct\nB-2,2026-03-04T05:06:07Z,1000,12.5,70`;
    expect((await deliver(lines, CSV)).reply).toMatchObject({ stored: 1, refused: 0 });
    const unknown = { fluid_c: null, load_pct: null, speed_kmh: null, gear: null, shifting: null };
    for (const row of await stored()) expect(row).toMatchObject(unknown);
    expect((await deliver([makeReading()])).reply).toMatchObject({ duplicate: 1, conflicting: 1 });
  });

  it('keeps text that COPY and JSON have signs of their own for', async () => {
    const vehicle = 'Büs "7"\\N, {a}\u{1f68c}';
    await deliver([makeReading({ vehicle, codes: ['a\\b"c', '{x,y}', 'NULL', 'é'] })]);
    const [row] = await stored();
    expect(row).toMatchObject({ unit: vehicle, codes: ['a\\b"c', '{x,y}', 'NULL', 'é'] });
  });

  it('spreads over the months that it needs', async () => {
    const { reply } = await deliver([
      makeReading({ at: '1990-01-01T00:00:00Z' }),
      makeReading({ at: '2024-02-29T23:59:59.999Z' }),
      makeReading({ at: '2024-03-01T00:00:00Z' }),
    ]);
    expect(reply).toMatchObject({ stored: 3 });
  });

  it('of an empty array is answered with nothing received', async () => {
    for (const body of [[], { readings: [] }])
      expect(await deliver(body)).toMatchObject({ status: 200, reply: { received: 0, stored: 0 } });
  });

  it('of more than one batch counts exactly', async () => {
    const readings = Array.from({ length: 12_345 }, (_, i) =>
      makeReading({
        vehicle: `V-${i % 7}`,
        at: minutesLater(i),
        slip_rpm: i % 1000 === 999 ? ('x' as never) : 5,
      }),
    );
    const { reply } = await deliver(toNdjson([...readings, ...readings.slice(0, 100)]), NDJSON);
    expect(reply).toMatchObject({
      received: 12_445,
      stored: 12_333,
      duplicate: 100,
      conflicting: 0,
      refused: 12,
    });
    expect(reply.refusals[0]).toEqual({ line: 1000, field: 'slip_rpm', message: 'must be a number in rpm' });
    const [count] = await app.client`select count(*) as n from readings`;
    expect(count?.n).toBe(12_333);
  });
});

describe('the same reading again', () => {
  it('is a duplicate, in one body and in the next', async () => {
    expect((await deliver([makeReading(), makeReading()])).reply).toMatchObject({
      stored: 1,
      duplicate: 1,
      conflicting: 0,
    });
    expect((await deliver([makeReading()])).reply).toMatchObject({ stored: 0, duplicate: 1, conflicting: 0 });
  });

  it('with another content is counted apart, and the first stays', async () => {
    const { reply } = await deliver([makeReading({ slip_rpm: 1 }), makeReading({ slip_rpm: 2 })]);
    expect(reply).toMatchObject({ stored: 1, duplicate: 1, conflicting: 1 });
    const again = await deliver([makeReading({ slip_rpm: 3 }), makeReading({ slip_rpm: 1 })]);
    expect(again.reply).toMatchObject({ stored: 0, duplicate: 2, conflicting: 1 });
    expect(await stored()).toMatchObject([{ slip_rpm: 1 }]);
  });

  it('is found among many others of its vehicle, and what lies between them is stored', async () => {
    const reading = (i: number) => makeReading({ at: minutesLater(i), odometer_km: 1000 + i });
    await deliver(toNdjson(Array.from({ length: 12_000 }, (_, i) => reading(2 * i))), NDJSON);
    const { reply } = await deliver([0, 23_997, 23_998, 1, 400, 23_999].map(reading));
    expect(reply).toMatchObject({ stored: 3, duplicate: 3, conflicting: 0 });
    const [count] = await app.client`select count(*) as n, count(distinct at) as moments from readings`;
    expect(count).toEqual({ n: 12_003, moments: 12_003 });
  });

  it('is the same whatever its zone and its units of the moment', async () => {
    await deliver([makeReading({ at: '2026-03-04T05:06:07Z' })]);
    const { reply } = await deliver([makeReading({ at: '2026-03-04T07:06:07.000+02:00' })]);
    expect(reply).toMatchObject({ duplicate: 1, conflicting: 0 });
  });
});

describe('a vehicle', () => {
  const vehicle = async (unit: string) => (await app.client`select * from vehicles where unit = ${unit}`)[0];

  it('is created on first contact, without a platform', async () => {
    await deliver([makeReading({ vehicle: '  new 1 ' })]);
    expect(await vehicle('new 1')).toMatchObject({ platform: null, depot: null, registered: false });
  });

  it('is not created by lines that are refused', async () => {
    await deliver([makeReading({ vehicle: 'ghost', duty_pct: 400 })]);
    expect(await vehicle('ghost')).toBeUndefined();
  });

  it('keeps the odometer of its newest reading though older ones arrive later', async () => {
    await deliver([makeReading({ at: minutesLater(60), odometer_km: 600 })]);
    await deliver([
      makeReading({ at: minutesLater(30), odometer_km: 300 }),
      makeReading({ at: minutesLater(90), odometer_km: 900 }),
    ]);
    await deliver([makeReading({ at: minutesLater(10), odometer_km: 100 })]);
    const [span] = await app.client`
      select s.* from reading_spans s join vehicles on key = vehicle where unit = 'B-1207'`;
    expect(span).toMatchObject({
      first_at: new Date(minutesLater(10)),
      last_at: new Date(minutesLater(90)),
      odometer_km: 900,
    });
  });

  it('is left to the assessment with the span of what was new, and of nothing else', async () => {
    await deliver([makeReading({ at: minutesLater(10) }), makeReading({ at: minutesLater(20) })]);
    await deliver([makeReading({ at: minutesLater(5) }), makeReading({ at: minutesLater(20) })]);
    const touched = () => app.client`select from_at, to_at, xmin::text as written_by from touched_vehicles`;
    const before = await touched();
    expect(before).toMatchObject([{ from_at: new Date(minutesLater(5)), to_at: new Date(minutesLater(20)) }]);
    await deliver([makeReading({ at: minutesLater(20) })]);
    expect(await touched()).toEqual(before);
  });
});

describe('two deliveries at once', () => {
  it('with the same vehicles in opposite order both end, and every reading is kept once', async () => {
    const readings = Array.from({ length: 6000 }, (_, i) =>
      makeReading({ vehicle: `V-${i % 300}`, at: minutesLater(Math.floor(i / 300)) }),
    );
    const bodies = [
      readings,
      [...readings].reverse(),
      readings.slice(2000),
      [...readings].reverse().slice(2000),
    ];
    const answers = await Promise.all(bodies.map((body) => deliver(toNdjson(body), NDJSON)));
    expect(answers.map((answer) => answer.status)).toEqual([200, 200, 200, 200]);
    const sum = answers.reduce((total, { reply }) => total + reply.stored, 0);
    expect(sum).toBe(6000);
    const [count] = await app.client`select count(*) as n, count(distinct vehicle) as vehicles from readings`;
    expect(count).toEqual({ n: 6000, vehicles: 300 });
  });

  it('and changes of the fleet that touch the same vehicles all end well', async () => {
    const units = Array.from({ length: 40 }, (_, i) => `V-${i}`);
    const platform = { id: 'mixed', name: 'Mixed' };
    await app.post('/api/platforms', platform);
    const setUps = Array.from({ length: 8 }, (_, round) => [
      app.post('/api/platforms', { ...platform, gate: { cold_fluid_c: 50 + round } }),
      app.post(
        '/api/vehicles',
        [...units].reverse().map((id) => ({ id, platform: round % 2 ? 'mixed' : null })),
      ),
      app.post(
        '/api/lives',
        [...units].map((vehicle) => ({ vehicle, fitted_km: round * 1000, source: 'new' })),
      ),
    ]).flat();
    const deliveries = Array.from({ length: 8 }, (_, round) => {
      const readings = units.map((vehicle) => makeReading({ vehicle, at: minutesLater(round % 5) }));
      return app.post('/api/readings', round % 2 ? readings : readings.reverse());
    });
    const answers = await Promise.all([...setUps, ...deliveries]);
    expect(new Set(answers.map(({ status }) => status))).toEqual(new Set([200]));
    const [count] = await app.client`select count(*) as n from readings`;
    expect(count?.n).toBe(200);
  });
});
