import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { makeReading, minutesLater } from '#tests/helpers/make-reading.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';

let app: TestApp;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.stop());
beforeEach(async () => {
  await app.client`truncate readings, receipts, refused_lines, touched_vehicles, lives, vehicles, platforms, depots cascade`;
});

async function send(what: string, body: unknown) {
  const answer = await app.post(`/api/${what}`, body);
  return { status: answer.status, reply: await answer.json() };
}

const CITY = { id: 'city-12', name: 'City bus 12 m' };
const whole = (minutes: number) => ({
  from_at: new Date(minutesLater(0)),
  to_at: new Date(minutesLater(minutes)),
});

/** One vehicle with two readings, its touched span taken away as an assessment would. */
async function withReadings(unit = 'B-1') {
  await send('readings', [
    makeReading({ vehicle: unit, at: minutesLater(0) }),
    makeReading({ vehicle: unit, at: minutesLater(60) }),
  ]);
  await app.client`delete from touched_vehicles`;
}

const touched = async () => [...(await app.client`select from_at, to_at from touched_vehicles`)];

describe('platforms and depots', () => {
  it('are created, left alone and changed, one object or an array', async () => {
    expect(await send('platforms', CITY)).toEqual({
      status: 200,
      reply: { created: 1, changed: 0, unchanged: 0 },
    });
    expect((await send('platforms', [CITY, { id: 'van', name: 'Van' }])).reply).toEqual({
      created: 1,
      changed: 0,
      unchanged: 1,
    });
    expect((await send('platforms', { ...CITY, limit_rpm: 120 })).reply).toEqual({
      created: 0,
      changed: 1,
      unchanged: 0,
    });
    const depot = { id: 'north', name: 'North', bays: 3, time_zone: 'Europe/Vienna' };
    expect((await send('depots', depot)).reply).toEqual({ created: 1, changed: 0, unchanged: 0 });
    expect((await send('depots', { ...depot, bays: 4 })).reply).toEqual({
      created: 0,
      changed: 1,
      unchanged: 0,
    });
    expect(await (await app.get('/api/depots')).json()).toMatchObject([{ ...depot, bays: 4 }]);
  });

  it('keep the fields that a change leaves out, within groups too', async () => {
    await send('platforms', {
      ...CITY,
      limit_rpm: 120,
      reference: { duty_pct: 80 },
      gate: { cold_fluid_c: 50 },
    });
    await send('platforms', { ...CITY, reference: { load_pct: 40 } });
    expect(await (await app.get('/api/platforms')).json()).toMatchObject([
      {
        ...CITY,
        limit_rpm: 120,
        reference: { duty_pct: 80, load_pct: 40, fluid_c: 85 },
        gate: { cold_fluid_c: 50, hot_fluid_c: 125 },
      },
    ]);
  });

  it('get, change and lose the figures of their solenoid and converter part by part', async () => {
    const read = async () =>
      ((await (await app.get('/api/platforms')).json()) as { solenoid: unknown; converter: unknown }[])[0];
    await send('platforms', { ...CITY, solenoid: { ohm: 5.5, supply_v: 24 } });
    expect((await send('platforms', { ...CITY, solenoid: { ohm: 6 } })).reply.changed).toBe(1);
    expect((await send('platforms', { ...CITY, solenoid: { ohm: 6 } })).reply.unchanged).toBe(1);
    expect(await read()).toMatchObject({
      solenoid: { ohm: 6, supply_v: 24, wiring_ohm: 0.5, tolerance_pct: 25 },
      converter: null,
    });
    const lacking = await send('platforms', [
      { id: 'van', name: 'Van', solenoid: { ohm: 6 } },
      { ...CITY, converter: { price: 900 } },
    ]);
    expect(lacking.status).toBe(400);
    expect(lacking.reply.errors).toMatchObject([
      { line: 1, field: 'solenoid.supply_v' },
      { line: 2, field: 'converter.core_deposit' },
    ]);
    expect(await (await app.get('/api/platforms')).json()).toHaveLength(1);
    await send('platforms', { ...CITY, solenoid: null, converter: { price: 900, core_deposit: 300 } });
    expect(await read()).toMatchObject({
      solenoid: null,
      converter: { price: 900, core_deposit: 300, spare_cores: 0 },
    });
  });

  it('that are wrong are refused all together, each fault named with its element', async () => {
    const { status, reply } = await send('platforms', [
      CITY,
      { id: 'x', name: 'X', band_edges_pct: [40, 30] },
      { id: 'y', limit_rmp: 9 },
      { ...CITY, name: 'Twice' },
    ]);
    expect(status).toBe(400);
    expect(reply.detail).toMatch(
      /^Element 2: 'band_edges_pct' must rise \(and 3 more\)\. Nothing was changed\.$/,
    );
    expect(reply.errors).toMatchObject([
      { line: 2, field: 'band_edges_pct', message: 'must rise' },
      { line: 3, field: 'limit_rmp', message: 'is not a known field' },
      { line: 3, field: 'name' },
      { line: 4, field: '', message: 'is the same city-12 as element 1; send each once' },
    ]);
    expect(await (await app.get('/api/platforms')).json()).toEqual([]);
  });

  it.each([['[7]'], ['null'], ['"x"']])('are refused where they are no objects: %s', async (body) => {
    expect((await send('depots', body)).status).toBe(400);
  });

  it.each([
    ['', 'body_empty'],
    ['{', 'body_broken'],
  ])('are refused where the body is %j', async (body, code) => {
    expect(await send('depots', body)).toMatchObject({ status: 400, reply: { code } });
  });

  it('refuse a time zone that does not exist', async () => {
    const { reply } = await send('depots', { id: 'n', name: 'N', time_zone: 'Moon/Base' });
    expect(reply.errors).toEqual([
      { line: 1, field: 'time_zone', message: 'must be an IANA time zone name, such as Europe/Vienna' },
    ]);
  });

  it('leave to the assessment what a change of the platform asks for', async () => {
    await withReadings();
    await send('platforms', CITY);
    await send('vehicles', { id: 'B-1', platform: CITY.id });
    await app.client`delete from touched_vehicles`;
    await send('platforms', { ...CITY, name: 'Renamed' });
    expect(await touched()).toEqual([]);
    await send('platforms', { ...CITY, name: 'Renamed', limit_rpm: 140 });
    expect(await touched()).toEqual([{ ...whole(60), from_at: whole(60).to_at }]);
    await send('platforms', { id: CITY.id, name: 'Renamed', gate: { cold_fluid_c: 60 } });
    expect(await touched()).toEqual([whole(60)]);
    await app.client`delete from touched_vehicles`;
    // Costs and the length of an inspection change no assessment.
    await send('platforms', { id: CITY.id, name: 'Renamed', costs: { lost_day: 75 }, inspection_hours: 4 });
    expect(await touched()).toEqual([]);
  });
});

describe('vehicles', () => {
  it('are registered, and keep the fields that a change leaves out', async () => {
    await send('depots', { id: 'north', name: 'North' });
    await send('platforms', CITY);
    await withReadings();
    const full = { id: 'B-1', depot: 'north', platform: CITY.id, vin: '1M8GDM9AXKP042788' };
    expect((await send('vehicles', [full, { id: 'B-2' }])).reply).toEqual({
      created: 1,
      changed: 1,
      unchanged: 0,
    });
    expect((await send('vehicles', { id: 'B-1', retired: true })).reply).toEqual({
      created: 0,
      changed: 1,
      unchanged: 0,
    });
    expect((await send('vehicles', full)).reply).toEqual({ created: 0, changed: 0, unchanged: 1 });
    const [row] =
      await app.client`select unit, depot, platform, vin, retired, registered from vehicles where unit = 'B-1'`;
    const { id, ...fields } = full;
    expect(row).toEqual({ unit: id, ...fields, retired: true, registered: true });
    expect((await send('vehicles', { id: 'B-1', depot: null })).reply).toMatchObject({ changed: 1 });
  });

  it('have days on which they cannot be taken, kept until others are said', async () => {
    const unavailable = [
      { from: '2026-12-24', to: '2027-01-06', note: 'lent out' },
      { from: '2026-11-30', to: '2026-11-30', note: '' },
    ];
    await send('vehicles', {
      id: 'B-1',
      unavailable: unavailable.map(({ note, ...days }) => ({ ...days, ...(note && { note }) })),
    });
    await send('vehicles', { id: 'B-1', vin: '1M8GDM9AXKP042788' });
    const stored = async () => (await app.client`select unavailable from vehicles where unit = 'B-1'`)[0];
    expect(await stored()).toEqual({ unavailable });
    await send('vehicles', { id: 'B-1', unavailable: [] });
    expect(await stored()).toEqual({ unavailable: [] });
  });

  it.each([
    [{ from: '2026-12-24', to: '2026-12-23' }, 'to', 'must not be before from'],
    [{ from: '24.12.2026', to: '2026-12-24' }, 'from', 'must be a day such as 2026-03-04'],
    [{ from: '2026-02-30', to: '2026-03-01' }, 'from', 'must be a day such as 2026-03-04'],
    [{ from: '2026-12-24' }, 'to', 'must be a day such as 2026-03-04'],
  ])('with days that could not be are refused: %j', async (days, field, message) => {
    const { status, reply } = await send('vehicles', { id: 'B-1', unavailable: [days] });
    expect(status).toBe(400);
    expect(reply.errors).toEqual([{ line: 1, field: `unavailable.0.${field}`, message }]);
    expect(await app.client`select from vehicles where unit = 'B-1'`).toHaveLength(0);
  });

  it('with a depot or platform that is not known are refused', async () => {
    const { status, reply } = await send('vehicles', [
      { id: 'B-1' },
      { id: 'B-2', depot: 'nowhere', platform: 'nothing' },
    ]);
    expect(status).toBe(400);
    expect(reply.errors).toEqual([
      { line: 2, field: 'depot', message: "'nowhere' is not known; create the depot first" },
      { line: 2, field: 'platform', message: "'nothing' is not known; create the platform first" },
    ]);
    expect(await app.client`select from vehicles`).toHaveLength(0);
  });

  it('of another platform have all their stretches built again', async () => {
    await send('platforms', CITY);
    await withReadings();
    await send('vehicles', { id: 'B-1', platform: CITY.id });
    expect(await touched()).toEqual([whole(60)]);
  });
});

describe('converter lives', () => {
  const life = { vehicle: 'B-1', fitted_km: 0, source: 'original' };
  const rows = () =>
    app.client`select fitted_km, removed_km, ended, source, mode from lives order by fitted_km`;

  it('create a vehicle that is not known, unregistered', async () => {
    expect((await send('lives', life)).reply).toEqual({ created: 1, changed: 0, unchanged: 0 });
    expect(await app.client`select unit, registered from vehicles`).toEqual([
      { unit: 'B-1', registered: false },
    ]);
  });

  it('are changed by vehicle and fitted_km, and keep what is left out', async () => {
    await send('lives', { ...life, mode: 'lining worn', removed_km: 200_000, ended: 'failed' });
    expect((await send('lives', { ...life, source: 'new' })).reply).toEqual({
      created: 0,
      changed: 1,
      unchanged: 0,
    });
    expect((await send('lives', { ...life, source: 'new' })).reply).toEqual({
      created: 0,
      changed: 0,
      unchanged: 1,
    });
    expect(await rows()).toEqual([
      { fitted_km: 0, removed_km: 200_000, ended: 'failed', source: 'new', mode: 'lining worn' },
    ]);
  });

  it('keep what a used converter had run, which a new one has not', async () => {
    const used = { ...life, source: 'used', run_km: 80_000 };
    expect((await send('lives', used)).reply).toMatchObject({ created: 1 });
    expect((await send('lives', { ...life, source: 'used' })).reply).toMatchObject({ unchanged: 1 });
    const refused = await app.post('/api/lives', { ...used, source: 'new' });
    expect(refused.status).toBe(400);
    expect((await refused.json()).errors[0].field).toMatch(/run_km$/);
    expect(await app.client`select source, run_km from lives`).toEqual([{ source: 'used', run_km: 80_000 }]);
  });

  it('have one word for a mode that packets know', async () => {
    const ended = { ...life, removed_km: 200_000, ended: 'failed', mode: 'lining_worn' };
    await send('lives', ended);
    expect((await send('lives', { ...ended, mode: 'Lining worn' })).reply).toMatchObject({ unchanged: 1 });
    expect(await rows()).toMatchObject([{ mode: 'lining worn' }]);
  });

  it('without an end end where the next begins', async () => {
    await send('lives', life);
    await send('lives', { ...life, fitted_km: 180_000, source: 'rebuilt' });
    expect(await rows()).toMatchObject([
      { fitted_km: 0, removed_km: 180_000, ended: null },
      { fitted_km: 180_000, removed_km: null },
    ]);
  });

  it('that overlap are refused, with each other and with those there', async () => {
    await send('lives', { ...life, removed_km: 200_000 });
    const { status, reply } = await send('lives', [
      { ...life, vehicle: 'B-2' },
      { ...life, fitted_km: 150_000, source: 'new' },
    ]);
    expect(status).toBe(400);
    expect(reply.errors).toEqual([
      {
        line: 2,
        field: 'fitted_km',
        message:
          'overlaps: the life of B-1 fitted at 0 km ends at 200000 km, and the next is fitted at 150000 km',
      },
    ]);
    expect(await app.client`select from vehicles`).toHaveLength(1);
  });

  it('that end before they begin are refused', async () => {
    const { reply } = await send('lives', {
      ...life,
      fitted_km: 10,
      removed_km: 5,
      fitted_at: '2025-01-02T00:00:00Z',
      removed_at: '2025-01-01T00:00:00Z',
    });
    expect(reply.errors).toEqual([
      { line: 1, field: 'removed_km', message: 'must not be before fitted_km' },
      { line: 1, field: 'removed_at', message: 'must not be before fitted_at' },
    ]);
  });

  it('have the stretches of their vehicle built again', async () => {
    await withReadings();
    await send('lives', life);
    expect(await touched()).toEqual([whole(60)]);
    await app.client`delete from touched_vehicles`;
    await send('lives', life);
    expect(await touched()).toEqual([]);
  });
});

it('appears in the interface description with its bodies and answers', async () => {
  const document = await (await app.get('/api/openapi.json')).json();
  const post = document.paths['/api/readings'].post;
  expect(Object.keys(post.requestBody.content)).toEqual([
    'application/json',
    'application/x-ndjson',
    'text/csv',
    'text/x-candump',
  ]);
  expect(Object.keys(post.responses)).toEqual(
    expect.arrayContaining(['200', '400', '409', '413', '415', '422']),
  );
  for (const path of ['platforms', 'depots', 'vehicles', 'lives'])
    expect(document.paths[`/api/${path}`].post.requestBody.content).toHaveProperty('application/json');
  expect(document.paths['/api/receipts/{id}'].get.responses).toHaveProperty('200');
});
