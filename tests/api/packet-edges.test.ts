import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { newPacketLink } from '#server/contract/packets.ts';
import { vehicleHistory, vehicleSeries } from '#server/contract/vehicle.ts';
import { book, bookingNow, gradeVehicle, setUpBookableFleet } from '#tests/helpers/bookable-fleet.ts';
import { makeReading } from '#tests/helpers/make-reading.ts';
import { visitAs } from '#tests/helpers/packet-visit.ts';
import { signInAs } from '#tests/helpers/sign-in.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';

let app: TestApp;
let planner: ReturnType<typeof visitAs>;
let north: ReturnType<typeof visitAs>;
let south: ReturnType<typeof visitAs>;

beforeAll(async () => {
  app = await startApp({}, bookingNow);
  await setUpBookableFleet(app, 9);
  planner = visitAs(app, (await signInAs(app, 'planner', { name: 'Tarn Ewell' })).headers);
  north = visitAs(app, (await signInAs(app, 'shop', { depots: ['north'] })).headers);
  south = visitAs(app, (await signInAs(app, 'shop', { depots: ['south'] })).headers);
});
afterAll(() => app?.stop());

const noFault = { outcome: 'no_fault_found', odometer_km: 1000, as_measured: true };
const replaced = {
  outcome: 'repaired',
  ended: 'failed',
  as_measured: true,
  without_cooler: 'Cooler replaced the week before',
};
const reportConverter = (id: number, supplier = '') =>
  planner.report(id, {
    parts: [{ kind: 'converter', source: 'rebuilt', supplier }],
    teardown: { cause: 'lining_worn' },
  });
const livesOf = (unit: string) => app.client`
  select l.fitted_km, l.removed_km, l.ended, l.supplier from lives l join vehicles v on v.key = l.vehicle
  where v.unit = ${unit} order by l.fitted_km`;
const share = async (id: number, mayReport: boolean) => {
  const asked = { label: 'Brae Transmissions', may_report: mayReport };
  const answer = await planner.ask('POST', `/packets/${id}/links`, asked);
  const { link, address } = newPacketLink.parse(await answer.json());
  const headers = { authorization: `Bearer ${new URL(address).hash.slice(1)}` };
  return { link, headers, holder: visitAs(app, headers) };
};

describe('the lives that a closing changes', () => {
  it('take a supplier of every length that a part may name', async () => {
    const { id } = await planner.open('N-1');
    const supplier = 'S'.repeat(120);
    await reportConverter(id, supplier);
    await planner.close(id, { ...replaced, odometer_km: 90_000 });
    expect(await livesOf('N-1')).toMatchObject([{ fitted_km: 90_000, supplier }]);
  });

  it('know what a used converter had run before, and so does whoever reads of it', async () => {
    const { id } = await planner.open('N-1');
    const used = { kind: 'converter', what: 'TC-9', source: 'used', supplier: 'Brae', run_km: 118_000 };
    const report = (part: Record<string, unknown>) => ({
      parts: [{ ...used, ...part }],
      teardown: { cause: 'lining_worn' },
    });
    const { version } = await planner.get(id);
    for (const wrong of [{ source: 'rebuilt' }, { kind: 'wiring' }, { run_km: -1 }, { run_km: 5_000_001 }]) {
      const asked = { version, ...report(wrong) };
      const refused = await planner.refused('PUT', `/packets/${id}/report`, asked);
      expect([refused.status, refused.errors?.[0]?.field]).toEqual([400, 'parts.0.run_km']);
    }
    expect((await planner.report(id, report({}))).report.parts).toMatchObject([used]);
    await planner.close(id, { ...replaced, odometer_km: 120_000 });
    const life = { fitted_km: 120_000, source: 'used', supplier: 'Brae', run_km: 118_000 };
    const listed = await (await app.get('/api/vehicles/N-1')).json();
    expect(listed.lives.at(-1)).toMatchObject(life);
    const historyIn = async (units: string) =>
      vehicleHistory
        .parse(await (await app.get(`/api/vehicles/N-1/history?units=${units}`)).json())
        .events.map(({ text }) => text);
    // 118,000 / 1.609344 = 73,322
    for (const [units, ran] of [
      ['metric', '118,000 km'],
      ['imperial', '73,300 mi'],
    ] as const)
      expect(await historyIn(units)).toEqual(
        expect.arrayContaining([
          `Fitted: Torque converter TC-9, used, from Brae, had run ${ran} before`,
          `Converter fitted: used, from Brae, had run ${ran} before`,
        ]),
      );

    // The next job counts what the old one had run in all.
    const next = await planner.open('N-1');
    expect(next.lives.at(-1)).toMatchObject(life);
    await reportConverter(next.id);
    await planner.close(next.id, { ...replaced, odometer_km: 130_000 });
    const { earlier } = await planner.open('N-1');
    expect(earlier.map(({ packet, converter_km }) => [packet, converter_km]).slice(0, 2)).toEqual([
      [next.id, 128_000],
      [id, 30_000],
    ]);
  });

  it('of packets from before that could be said are as if nobody had said it', async () => {
    const { id, vehicle } = await planner.open('N-1');
    const told = await (await planner.ask('GET', `/packets/${id}/series`)).text();
    await app.client`insert into packet_evidence (packet, series) values (${id}, ${told}::text::jsonb)`;
    await app.client`update packet_evidence set series = series #- '{lives,0,run_km}' where packet = ${id}`;
    await app.client`update packets set report = report #- '{parts}' ||
      '{"parts": [{"kind": "converter"}, {"kind": "cooler"}]}' where id = ${id}`;
    await app.client.unsafe(readFileSync('db/migrations/0015_run-of-used-parts.sql', 'utf8'));
    const [kept] = await app.client`select report, series from packets join packet_evidence on packet = id
      where id = ${id}`;
    expect(kept?.report.parts).toEqual(['converter', 'cooler'].map((kind) => ({ kind, run_km: null })));
    expect(kept?.series).toEqual(JSON.parse(told));
    expect(vehicleSeries.parse(kept?.series)).toMatchObject({ vehicle });
  });

  it('do not end before they began, nor in a year that no workshop knew', async () => {
    const fitted_at = '2026-03-01T00:00:00Z';
    await app.post('/api/lives', { vehicle: 'N-2', fitted_km: 10_000, fitted_at, source: 'new' });
    const { id } = await planner.open('N-2');
    const { version } = await reportConverter(id);
    for (const work_at of ['2026-02-01T08:00:00Z', '1800-02-01T08:00:00Z']) {
      const asked = { ...replaced, version, odometer_km: 90_000, work_at };
      const refused = await planner.refused('POST', `/packets/${id}/close`, asked);
      expect([refused.status, refused.errors?.[0]?.field], work_at).toEqual([400, 'work_at']);
    }
  });

  it('keep one that had ended as it was, whatever the old converter is said to be', async () => {
    const ended = { removed_km: 40_000, ended: 'failed' };
    await app.post('/api/lives', { vehicle: 'N-3', fitted_km: 10_000, source: 'original', ...ended });
    const { id } = await planner.open('N-3');
    const { version } = await reportConverter(id);
    const refused = await planner.refused('POST', `/packets/${id}/close`, {
      ...replaced,
      version,
      odometer_km: 90_000,
      old_converter: { fitted_km: 10_000, source: 'used' },
    });
    expect([refused.status, refused.errors?.[0]?.field]).toEqual([400, 'old_converter.fitted_km']);
    expect(await livesOf('N-3')).toMatchObject([ended]);
  });

  it('are counted in the kilometres of the joined odometer where the instrument was changed', async () => {
    await app.post('/api/lives', [
      { vehicle: 'N-4', fitted_km: 0, source: 'original', removed_km: 200_000, ended: 'failed' },
      { vehicle: 'N-4', fitted_km: 200_000, source: 'rebuilt' },
    ]);
    await app.client`insert into odometer_steps (vehicle, at, offset_km)
      select key, '2026-06-01', 300000 from vehicles where unit = 'N-4'`;
    const { id } = await planner.open('N-4');
    await reportConverter(id);
    const done = await planner.close(id, { ...replaced, odometer_km: 20_000 });
    expect(done).toMatchObject({ closing: { odometer_km: 20_000, new_life: 3 } });
    expect(await livesOf('N-4')).toMatchObject([
      { fitted_km: 0, removed_km: 200_000 },
      { fitted_km: 200_000, removed_km: 320_000, ended: 'failed' },
      { fitted_km: 320_000, removed_km: null },
    ]);
  });
});

describe('what a packet tells', () => {
  it('of a closed job leaves out note and booking of what comes after', async () => {
    const { id } = await planner.open('N-5');
    await planner.close(id, noFault);
    await planner.ask('PUT', '/vehicles/N-5/shop', { depot: 'south', note: 'Invoice to the insurer' });
    await book(app, { vehicle: 'N-5', day: '2026-11-30', depot: 'south' });
    const { holder } = await share(id, false);
    for (const who of [holder, north]) expect(await who.get(id)).toMatchObject({ note: null, booking: null });
  });

  it('of earlier jobs names the packet only to those who may open it', async () => {
    const first = await planner.open('N-6');
    await planner.close(first.id, noFault);
    await planner.ask('PUT', '/vehicles/N-6/shop', { depot: 'south', note: '' });
    const second = await south.open('N-6');
    expect(second.earlier).toMatchObject([{ packet: null, outcome: 'no_fault_found' }]);
    expect((await planner.get(second.id)).earlier).toMatchObject([{ packet: first.id }]);
  });

  it('reaches the shop to which the vehicle was sent on while the job is open', async () => {
    const { id } = await planner.open('N-7');
    await planner.ask('PUT', '/vehicles/N-7/shop', { depot: 'south', note: '' });
    expect((await south.open('N-7')).id).toBe(id);
    await south.record(id, { step: 'pan', debris: 'fine' });
    await south.close(id, noFault);
  });

  it('says the day of the inspection as the calendar of its shop has it', async () => {
    await gradeVehicle(app.client, 'N-8', 'watch');
    const { id } = await planner.open('N-8');
    await planner.close(id, { ...noFault, work_at: '2026-11-25T23:30:00Z' });
    const { rows } = await (await app.get('/api/ranking?q=N-8')).json();
    expect(rows).toMatchObject([{ vehicle: 'N-8', inspected_on: '2026-11-26' }]);
  });
});

describe('a link that is revoked while a file comes', () => {
  it.each(['photos', 'road-test'])('stores nothing of %s', async (path) => {
    const { id } = await planner.open('N-9');
    const { link, headers } = await share(id, true);
    let send: ReadableStreamDefaultController<Uint8Array> | undefined;
    const body = new ReadableStream<Uint8Array>({
      start: (controller) => {
        send = controller;
        controller.enqueue(new TextEncoder().encode('time_s,slip_rpm,duty_pct\n'));
      },
    });
    const answer = fetch(`${app.url}/api/packets/${id}/${path}`, {
      method: 'POST',
      headers: { ...headers, 'content-type': path === 'photos' ? 'image/png' : 'text/csv' },
      body,
      duplex: 'half',
    } as RequestInit);
    await expect
      .poll(async () => (await app.client`select from packet_openings where link = ${link.id}`).length)
      .toBe(1);
    expect((await planner.ask('DELETE', `/packets/${id}/links/${link.id}`)).status).toBe(204);
    send?.enqueue(new TextEncoder().encode('0,10,90\n1,11,90\n'));
    send?.close();
    expect((await answer).status).toBe(401);
  });
});

it('keeps calm no longer for an instrument that was changed since', async () => {
  await app.post('/api/readings', [
    makeReading({ vehicle: 'S-1', at: '2026-11-20T08:00:00Z', odometer_km: 400_000 }),
  ]);
  await gradeVehicle(app.client, 'S-1', 'watch');
  const { id } = await planner.open('S-1');
  await planner.close(id, { ...noFault, odometer_km: 400_000 });
  await app.client`insert into odometer_steps (vehicle, at, offset_km)
    select key, '2026-11-27', 400000 from vehicles where unit = 'S-1'`;
  await app.client`update reading_spans set odometer_km = 9000 where vehicle = (select key from vehicles where unit = 'S-1')`;
  const { findCalms } = await import('#server/services/assessment/find-calms.ts');
  expect((await findCalms(app.running.context.db)).filter(({ packet }) => packet === id)).toEqual([]);
  await app.client`update reading_spans set odometer_km = 4000 where vehicle = (select key from vehicles where unit = 'S-1')`;
  expect((await findCalms(app.running.context.db)).filter(({ packet }) => packet === id)).toHaveLength(1);
});

it('begins the trend anew where on the joined track a repair was done, and ends its check at the next one', async () => {
  await app.client`insert into odometer_steps (vehicle, at, offset_km)
    select key, '2026-06-01', 300000 from vehicles where unit = 'S-2'`;
  const done = { outcome: 'repaired', reason: 'Solenoid cleaned', as_measured: true };
  const ids: number[] = [];
  for (const [odometer_km, work_at] of [
    [20_000, '2026-09-01T08:00:00Z'],
    [22_600, '2026-10-01T08:00:00Z'],
  ]) {
    const { id } = await planner.open('S-2');
    await planner.report(id, { teardown: { cause: 'wiring_fault' } });
    await planner.close(id, { ...done, odometer_km, work_at });
    ids.push(id);
  }
  const [{ key } = { key: 0 }] = await app.client<
    { key: number }[]
  >`select key from vehicles where unit = 'S-2'`;
  await app.client`insert into reading_spans (vehicle, first_at, last_at, odometer_km)
    values (${key}, '2026-01-01', '2026-10-01T07:00:00Z', 22600) on conflict do nothing`;
  const { readAssessedVehicles } = await import('#db/queries/read-assessed-vehicles.ts');
  const [facts] = await readAssessedVehicles(app.running.context.db, [key]);
  expect(facts?.repair).toEqual({ km: 322_600, atMs: Date.parse('2026-10-01T08:00:00Z') });
  await app.client`insert into stretches
    select ${key}, 1, -1, s, '2026-09-01'::timestamptz + s * interval '1 hour',
      '2026-09-01'::timestamptz + s * interval '1 hour', 100, 100, 90, s * 500 + 250,
      case when s * 500 < 322600 then 90 else 12 end, 3, 85, 85, 50, array[1,85,85,50]::float8[]
    from generate_series(640, 660) s`;
  const first = (await planner.get(ids[0] ?? 0)).after;
  const second = (await planner.get(ids[1] ?? 0)).after;
  expect([first?.km_since, first?.slip_rpm?.estimate]).toEqual([2250, expect.closeTo(90, -1)]);
  expect(second?.slip_rpm?.estimate).toBeCloseTo(12, -1);
});

it('writes down what a link was used for, and calls no other call a finding', async () => {
  const { id } = await planner.open('S-3');
  const { link, holder } = await share(id, true);
  for (const [method, path] of [
    ['PUT', `/packets/${id}/core`],
    ['POST', '/vehicles'],
    ['POST', `/packets/${id}/findings`],
  ] as const)
    await (await holder.ask(method, path, {})).body?.cancel();
  const rows = await app.client`select what from packet_openings where link = ${link.id} order by id`;
  expect(rows.map(({ what }) => what)).toEqual(['old unit', 'a call that no link opens', 'finding']);
});
