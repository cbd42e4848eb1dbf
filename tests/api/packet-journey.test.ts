import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ranking } from '#server/contract/ranking.ts';
import { vehicleDetail, vehicleHistory, vehicleSeries } from '#server/contract/vehicle.ts';
import { drivePlainly } from '#tests/helpers/drive-plainly.ts';
import { toNdjson } from '#tests/helpers/make-reading.ts';
import { visitAs } from '#tests/helpers/packet-visit.ts';
import { plainEnd, sendPlainFleet } from '#tests/helpers/send-plain-fleet.ts';
import { signInAs } from '#tests/helpers/sign-in.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';

/** The last readings are of plainEnd; what the shop does comes three weeks later. */
const now = new Date(plainEnd.getTime() + 21 * 86_400_000);
/** Mileage of P-01 at its last reading, a little under; work is done with it. */
const WORK_KM = 75_000;

let app: TestApp;
let shop: ReturnType<typeof visitAs>;
let planner: ReturnType<typeof visitAs>;

beforeAll(async () => {
  app = await startApp({}, now);
  await sendPlainFleet(app);
  await app.post('/api/platforms', {
    id: 'p-type',
    name: 'Type P',
    solenoid: { ohm: 5.5, supply_v: 24, wiring_ohm: 0.5 },
    converter: { price: 980, core_deposit: 1450 },
  });
  await app.post('/api/platforms', {
    id: 'q-type',
    name: 'Type Q',
    solenoid: { ohm: 5.5, supply_v: 24, wiring_ohm: 0.5 },
  });
  await app.post('/api/lives', { vehicle: 'P-01', fitted_km: 0, source: 'original' });
  await app.post('/api/assess', {});
  shop = visitAs(app, (await signInAs(app, 'shop', { depots: ['north'], name: 'Ilse Rook' })).headers);
  planner = visitAs(app, (await signInAs(app, 'planner', { name: 'Tarn Ewell' })).headers);
});
afterAll(() => app?.stop());

const row = async (unit: string) => {
  const { rows } = ranking.parse(await (await app.get('/api/ranking?limit=100')).json());
  const found = rows.find(({ vehicle }) => vehicle === unit);
  if (found === undefined) throw new Error(`${unit} is not in the list`);
  return found;
};

const drive = async (unit: string, firstKm: number, slip: (day: number) => number, days = 21) => {
  const readings = drivePlainly([{ unit, firstKm, kmPerDay: 150, slipOn: slip }], plainEnd, days, 77);
  const answer = await app.post('/api/readings', toNdjson(readings), {
    'content-type': 'application/x-ndjson',
  });
  expect(answer.status).toBe(200);
  await app.post('/api/assess', {});
};

describe('a vehicle past its limit', () => {
  it('goes through the shop to a new converter, and its trend begins afresh', async () => {
    expect(await row('P-01')).toMatchObject({ grade: 'hold', rank: 1 });
    expect((await shop.ask('GET', '/packets')).status).toBe(200);
    expect((await shop.refused('POST', '/packets', { vehicle: 'P-01' })).status).toBe(404);
    expect(
      (await planner.ask('PUT', '/vehicles/P-01/shop', { depot: 'north', note: 'Shudders' })).status,
    ).toBe(200);

    const opened = await shop.open('P-01');
    expect(opened).toMatchObject({ state: 'open', depot: 'north', note: 'Shudders', may_report: true });
    expect(opened.flag).toMatchObject({ grade: 'hold', limit_rpm: 150 });
    expect(opened.flag.reference_slip_rpm).toBeGreaterThan(150);
    expect(opened.steps.map(({ step, state }) => [step, state])).toEqual([
      ['fluid', 'next'],
      ['road_test', 'open'],
      ['solenoid_current', 'open'],
      ['pressure', 'open'],
      ['pan', 'open'],
      ['cooler', 'open'],
    ]);
    // Opening it twice is opening it once.
    expect((await planner.open('P-01')).id).toBe(opened.id);
    const series = vehicleSeries.parse(await (await shop.ask('GET', `/packets/${opened.id}/series`)).json());
    expect(series.series[0]?.points.length).toBeGreaterThan(20);

    const { id } = opened;
    await shop.record(id, { step: 'fluid', level: 'right', colour: 'brown', smell: 'usual' });
    await shop.record(id, { step: 'road_test', duty_pct: 78, slip_rpm: 540, seconds: 40, falls: false });
    const asked = await shop.record(id, { step: 'solenoid_current', off_a: 4.1, on_a: 0.1 });
    expect(asked).toMatchObject({ kind: 'asked', questions: [{ suggestion: { off_a: 0.1, on_a: 4.1 } }] });
    const current = await shop.record(id, {
      step: 'solenoid_current',
      off_a: 0.1,
      on_a: 4.1,
      click: 'heard',
    });
    // 24 V / (5.5 + 0.5) ohm = 4 A
    expect(current).toMatchObject({
      kind: 'stored',
      finding: { result: 'current_right', verdict: 'passed' },
    });
    await shop.record(id, { step: 'pressure', place: 'line', off: 4.2, on: 6.1, smallest_step: 0.1 });
    await shop.record(id, { step: 'pan', debris: 'lining', notes: 'Flakes on the magnet' });
    await shop.record(id, { step: 'cooler', litres: 0.6, seconds: 20 });
    const tested = await shop.get(id);
    expect(tested.steps.every(({ state }) => state === 'done')).toBe(true);
    const end = tested.tree.nodes.find((node) => node.id === tested.tree.path.at(-1)?.node)?.end;
    expect(end).toMatchObject({ work: 'converter', removes_transmission: true });
    expect(tested.cooler_due.due).toBe(true);
    expect(tested.part_guide).toMatchObject({ price: 980, core_deposit: 1450, cutting_costs: 1450 });

    const parts = [
      {
        kind: 'converter',
        what: 'TC-410',
        source: 'rebuilt',
        supplier: 'Corvan Rebuilds',
        price: 980,
        core_deposit: 1450,
        core: 'to_return',
      },
    ];
    await shop.report(id, { parts, teardown: { cause: 'lining_lost' } });
    const closing = {
      outcome: 'repaired',
      odometer_km: WORK_KM,
      ended: 'failed',
      work_at: plainEnd.toISOString(),
    };
    const { version } = await shop.get(id);
    const lacking = await shop.refused('POST', `/packets/${id}/close`, { version, ...closing });
    expect([lacking.status, lacking.errors.map(({ field }) => field)]).toEqual([400, ['cooler']]);
    await shop.report(id, {
      parts,
      teardown: { cause: 'lining_lost' },
      cooler: {
        done: 'flushed',
        minutes: 95,
        method: 'pumped_through_filter',
        both_directions: true,
        filter_clean: true,
        flow_before_l_min: 1.8,
        flow_after_l_min: 4.5,
      },
    });
    const done = await shop.close(id, closing);
    expect(done).toMatchObject({
      kind: 'closed',
      closing: { outcome: 'repaired', cause: 'lining_lost', ended: 'failed', new_life: 2, by: 'Ilse Rook' },
    });

    // The vehicle has left the shop; its packet has not, with the evidence that it was opened with.
    const kept = vehicleSeries.parse(await (await shop.ask('GET', `/packets/${id}/series`)).json());
    expect(kept).toEqual(series);
    expect((await shop.ask('GET', '/vehicles/P-01')).status).toBe(404);
    expect((await shop.get(id)).after).toMatchObject({ state: 'too_early', km_since: null });
    await app.post('/api/assess', {});
    expect(await row('P-01')).toMatchObject({ grade: 'unknown', calm: null });
    const detail = vehicleDetail.parse(await (await app.get('/api/vehicles/P-01')).json());
    expect(detail.lives).toMatchObject([
      { life: 1, fitted_km: 0, removed_km: WORK_KM, ended: 'failed', source: 'original' },
      { life: 2, fitted_km: WORK_KM, removed_km: null, source: 'rebuilt', supplier: 'Corvan Rebuilds' },
    ]);
    expect(detail.lives[0]?.mode).toMatch(/lining/i);
    expect(detail.shop).toBeNull();
  });

  it('is seen by the shop to have been repaired well once it has driven on', async () => {
    await drive('P-01', WORK_KM, () => 13);
    const [packet] = (await (await shop.ask('GET', '/packets?vehicle=P-01')).json()).packets;
    expect(packet.after).toMatchObject({ state: 'held' });
    expect(packet.after.slip_rpm.estimate).toBeGreaterThan(8);
    expect(packet.after.slip_rpm.estimate).toBeLessThan(18);
    expect(['steady', 'unknown']).toContain((await row('P-01')).grade);
  });

  it('has all of it on one time line, as JSON and as CSV', async () => {
    const { events } = vehicleHistory.parse(await (await app.get('/api/vehicles/P-01/history')).json());
    const texts = events.map(({ kind, text }) => `${kind}: ${text}`);
    for (const part of [
      /^sent_to_shop: Sent to the shop of North yard by Tarn Ewell: Shudders/,
      /^packet_opened: Packet \d+ opened by Ilse Rook/,
      /^finding_recorded: .*Recorded by Ilse Rook/,
      /^part_fitted: Fitted: Torque converter TC-410, rebuilt, from Corvan Rebuilds/i,
      /^packet_closed: Job closed by Ilse Rook, repaired: .*lining/i,
      /^life_ended: /,
      /^life_began: /,
    ])
      expect(texts.filter((text) => part.test(text)).length, String(part)).toBeGreaterThan(0);
    expect(events.filter(({ kind }) => kind === 'finding_recorded')).toHaveLength(6);
    const csv = await (await app.get('/api/vehicles/P-01/history.csv')).text();
    expect(csv.split('\r\n')).toHaveLength(events.length + 2);
    expect(csv).toContain('packet_closed');
  });
});

describe('a vehicle whose fault was electrical', () => {
  it('keeps its converter, and its trend begins afresh all the same', async () => {
    const { id } = await planner.open('Q-01');
    await planner.record(id, { step: 'fluid', level: 'right', colour: 'red', smell: 'usual' });
    await planner.record(id, { step: 'road_test', duty_pct: 80, slip_rpm: 400, seconds: 30, falls: false });
    const current = await planner.record(id, { step: 'solenoid_current', off_a: 0, on_a: 1.4 });
    expect(current).toMatchObject({ kind: 'stored', finding: { result: 'current_low', verdict: 'failed' } });
    const packet = await planner.get(id);
    expect(packet.steps.filter(({ state }) => state === 'not_needed').map(({ step }) => step)).toContain(
      'pan',
    );
    await planner.report(id, {
      parts: [{ kind: 'wiring', source: 'new' }],
      teardown: { cause: 'wiring_fault' },
    });
    const work = Math.round((await row('Q-01')).odometer_km ?? 0);
    const done = await planner.close(id, {
      outcome: 'repaired',
      odometer_km: work,
      work_at: plainEnd.toISOString(),
    });
    expect(done).toMatchObject({ kind: 'closed', closing: { new_life: null, ended: null } });
    await app.post('/api/assess', {});
    expect(await row('Q-01')).toMatchObject({ grade: 'unknown' });
    await drive('Q-01', work, () => 14);
    const detail = vehicleDetail.parse(await (await app.get('/api/vehicles/Q-01')).json());
    expect(detail.questions.filter((text) => text.includes('replaced'))).toEqual([]);
    expect(detail.lives).toHaveLength(1);
    // An instrument that was changed on another vehicle has nothing to do with it.
    await app.client`insert into odometer_steps (vehicle, at, offset_km)
      select key, timestamptz '2026-01-01', 58000 from vehicles where unit = 'P-05'`;
    expect((await planner.get(id)).after).toMatchObject({ state: 'held' });
  });
});

describe('a vehicle in which no fault was found', () => {
  it('is calm in the list up to the stated mileage, and no further than slip stays as it was', async () => {
    const before = await row('P-02');
    expect(['hold', 'book']).toContain(before.grade);
    const km = Math.ceil(before.odometer_km ?? 0);
    const { id } = await planner.open('P-02');
    await planner.close(id, {
      outcome: 'no_fault_found',
      odometer_km: km,
      reason: 'Road test in the heat, nothing to feel',
      calm_km: 5000,
    });
    await app.post('/api/assess', {});
    const calm = await row('P-02');
    expect(calm).toMatchObject({
      grade: 'watch',
      calm: { packet: id, outcome: 'no_fault_found', until_km: km + 5000 },
      inspected_on: '2026-03-25',
      chance_within_horizon: before.chance_within_horizon,
    });
    expect(calm.reasons[0]).toMatch(
      /^A shop found no fault on 25 Mar 2026: calm until .* unless slip rises$/,
    );
    expect(calm.rank).toBeGreaterThan(before.rank);

    // Slip climbs on as before: by 30 rpm within three weeks, which is new evidence.
    await drive('P-02', km, (day) => 13 + (65 + day) * 1.6, 21);
    const risen = await row('P-02');
    expect(risen.calm).toBeNull();
    expect(['hold', 'book']).toContain(risen.grade);
    const { events } = vehicleHistory.parse(await (await app.get('/api/vehicles/P-02/history')).json());
    const regraded = events.filter(({ kind, text }) => kind === 'grade_changed' && text.includes('to watch'));
    expect(regraded[0]?.text).toContain('A shop found no fault');
  });
});

describe('what failed, in life data', () => {
  it('has one word, whether a shop closed a packet or the fleet delivered the life', async () => {
    const km = (await row('P-06')).odometer_km ?? 0;
    const listModes = async () => {
      const { groups } = await (await app.get('/api/analysis/lives?platform=p-type')).json();
      const modes: { mode: string; events: number }[] = groups[0].cumulative_incidence;
      return modes.map(({ mode, events }) => [mode, events]);
    };
    for (const mode of ['Clutch lining came off', 'lining broken up']) {
      const life = { vehicle: 'P-06', fitted_km: 0, source: 'original', removed_km: km - 2_000 };
      expect((await app.post('/api/lives', { ...life, ended: 'failed', mode })).status).toBe(200);
      expect(await listModes()).toEqual([['lining broken up', 2]]);
    }
    // As packets wrote it before there was one word.
    await app.client`update lives set mode = 'Clutch lining came off' where vehicle in (
      select key from vehicles where unit = 'P-01') and mode is not null`;
    expect(await listModes()).toHaveLength(2);
    const statements = readFileSync('db/migrations/0012_life-weeks.sql', 'utf8').split(
      'statement-breakpoint',
    );
    await app.client.unsafe(statements.at(-1) ?? '');
    expect(await listModes()).toEqual([['lining broken up', 2]]);
  });
});
