import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import type {
  Gateways,
  OdometerQuestions,
  Receipts,
  SetAsideShares,
  Throughput,
  ToComplete,
} from '#server/contract/intake.ts';
import type { VehicleDetail, VehicleHistory } from '#server/contract/vehicle.ts';
import { programActor } from '#server/services/actor.ts';
import { addKey } from '#server/services/keys/set-up-keys.ts';
import { makeReading, minutesLater, toNdjson } from '#tests/helpers/make-reading.ts';
import { signInAs } from '#tests/helpers/sign-in.ts';
import { type SmallIntake, startSmallIntake } from '#tests/helpers/small-intake.ts';
import { TEST_KEY } from '#tests/helpers/test-key.ts';

const DAY_MS = 86_400_000;
const NDJSON = { 'content-type': 'application/x-ndjson' };

let app: SmallIntake;
beforeAll(async () => {
  app = await startSmallIntake();
});
afterAll(() => app.stop());
beforeEach(async () => {
  await app.empty();
  await app.client`truncate odometer_steps, odometer_answers, stretches, stretch_totals, access_keys`;
});

async function assess(): Promise<void> {
  expect((await app.post('/api/assess', {})).status).toBe(200);
}

async function ask<T>(path: string): Promise<T> {
  const answer = await app.get(path);
  expect(answer.status, await answer.clone().text()).toBe(200);
  return (await answer.json()) as T;
}

/** A gateway with a key of its own, and how it delivers. */
async function openGateway(name: string) {
  const context = { ...app.running.context, actor: programActor('test') };
  const { secret, key } = await addKey(context, {
    name,
    right: 'deliver',
    expires_at: null,
    requests_per_minute: 1000,
    max_body_mib: null,
  });
  const headers = { ...NDJSON, authorization: `Bearer ${secret}` };
  const deliver = async (readings: unknown[]): Promise<string> =>
    (await app.deliver(toNdjson(readings), headers)).reply.receipt;
  return { id: `key:${key.id}`, deliver };
}

const ago = (days: number) => new Date(Date.now() - days * DAY_MS);
const dateReceipt = (id: string, at: Date) => app.client`update receipts set at = ${at} where id = ${id}`;

describe('deliveries', () => {
  it('are listed with who brought them, and narrowed', async () => {
    const yard = await openGateway('Yard gateway');
    await yard.deliver([makeReading(), makeReading(), makeReading({ duty_pct: 300 })]);
    await app.deliver('vehicle,at,odometer_km,slip_rpm,duty_pct\nB-7,2026-03-04T05:06:07Z,1,18,85\n', {
      'content-type': 'text/csv',
    });
    await app.client`update receipts set file = 'Fleet_100%.csv' where content_type = 'text/csv'`;
    const all = await ask<Receipts>('/api/receipts');
    expect(all).toMatchObject({
      more: false,
      rows: [
        { format: 'csv', sender: { name: 'set-up key' }, file: 'Fleet_100%.csv', stored: 1, refused: 0 },
        {
          format: 'ndjson',
          sender: { id: yard.id, kind: 'key', name: 'Yard gateway' },
          state: 'whole',
          received: 3,
          stored: 1,
          duplicate: 1,
          refused: 1,
          refused_open: 1,
          seconds: expect.any(Number),
        },
      ],
    });
    expect(all.senders.map(({ name }) => name)).toEqual(['set-up key', 'Yard gateway']);
    const counts = async (query: string) => (await ask<Receipts>(`/api/receipts?${query}`)).rows.length;
    expect(await counts(`sender=${yard.id}`)).toBe(1);
    expect(await counts('q=t_100%25')).toBe(1);
    expect(await counts('q=x100%25')).toBe(0);
    expect(await counts('with_refused=true')).toBe(1);
    expect(await counts('incomplete=true')).toBe(0);
    expect((await ask<Receipts>('/api/receipts?limit=1')).more).toBe(true);
    await app.client`update receipts set complete = false, status = 0 where sender = ${yard.id}`;
    const [broken] = (await ask<Receipts>('/api/receipts?incomplete=true')).rows;
    expect(broken?.state).toBe('not_ended');
  });

  it('are counted by the hour and by the day of a zone', async () => {
    const now = Date.now();
    const first = await app.deliver(toNdjson([makeReading(), makeReading({ duty_pct: 300 })]), NDJSON);
    const old = await app.deliver(toNdjson([makeReading({ at: minutesLater(1) })]), NDJSON);
    const older = await app.deliver(toNdjson([makeReading({ at: minutesLater(2) })]), NDJSON);
    await dateReceipt(old.reply.receipt, ago(10));
    await dateReceipt(older.reply.receipt, ago(70));
    const { hours, days, zone } = await ask<Throughput>('/api/intake/throughput?zone=Europe/Vienna');
    expect(zone).toBe('Europe/Vienna');
    expect([hours.length, days.length]).toEqual([49, 60]);
    const sum = (rows: readonly Record<'received' | 'stored' | 'refused', number>[]) =>
      (['received', 'stored', 'refused'] as const).map((fate) =>
        rows.reduce((total, row) => total + row[fate], 0),
      );
    expect(sum(hours)).toEqual([2, 1, 1]);
    expect(sum(days)).toEqual([3, 2, 1]);
    const hour = hours.find(({ received }) => received > 0);
    expect(Math.abs(Date.parse(hour?.from ?? '') - now)).toBeLessThan(3_700_000);
    const viennese = new Intl.DateTimeFormat('en-CA', { timeZone: 'Europe/Vienna' }).format(ago(10));
    expect(days.find(({ day }) => day === viennese)?.received).toBe(1);
    expect(first.status).toBe(200);
    expect((await app.get('/api/intake/throughput?zone=Mars/Plain')).status).toBe(400);
  });
});

describe('gateways', () => {
  it('are quiet after a silence far over their usual interval', async () => {
    const [regular, silent, fresh] = [
      await openGateway('Regular'),
      await openGateway('Silent'),
      await openGateway('Not yet'),
    ];
    for (const [gateway, lastDaysAgo] of [
      [regular, 0.5],
      [silent, 5],
    ] as const)
      for (let i = 0; i < 6; i++) {
        const vehicle = gateway === regular ? 'R-1' : 'S-1';
        const id = await gateway.deliver([makeReading({ vehicle, at: minutesLater(i) })]);
        await dateReceipt(id, ago(lastDaysAgo + i));
      }
    const { gateways, rule } = await ask<Gateways>('/api/gateways');
    expect(rule).toContain('four times its usual interval');
    expect(gateways.map(({ sender, quiet }) => [sender.name, quiet])).toEqual([
      ['Silent', true],
      ['Not yet', false],
      ['Regular', false],
    ]);
    const [first, waiting] = gateways;
    expect(first?.usual_s).toBeCloseTo(86_400, -1);
    expect(first?.quiet_after_s).toBeCloseTo(4 * 86_400, -1);
    expect(waiting).toMatchObject({ sender: { id: fresh.id }, last_at: null, usual_s: null });
    const reporting = gateways.find(({ sender }) => sender.id === regular.id);
    expect(reporting).toMatchObject({ right: 'deliver', refused_share: 0 });
    expect(reporting?.readings_per_day).toBeCloseTo(6 / 7, 6);
  });

  it('that go on tell of the vehicles that do not', async () => {
    const yard = await openGateway('Yard');
    const readingAt = (vehicle: string, daysAgo: number) =>
      makeReading({ vehicle, at: ago(daysAgo).toISOString() });
    await yard.deliver([
      readingAt('GOES', 1),
      readingAt('STOPPED', 20),
      readingAt('PAUSED', 5),
      readingAt('LONG', 300),
    ]);
    const { vehicles, vehicles_total, gateways, counts_from } = await ask<Gateways>('/api/gateways');
    expect(vehicles).toMatchObject([{ vehicle: 'STOPPED', sender: { name: 'Yard' }, at_shop: false }]);
    expect(vehicles[0]?.days).toBeCloseTo(19, 0);
    expect(vehicles_total).toBe(1);
    expect(gateways.find(({ sender }) => sender.id === yard.id)?.vehicles).toBe(3);
    expect(counts_from).toBeNull();
  });

  it('have the readings set aside of their vehicles, by month and reason', async () => {
    const [one, two] = [await openGateway('One'), await openGateway('Two')];
    const day = new Date(Date.UTC(ago(0).getUTCFullYear(), ago(0).getUTCMonth() - 1, 10));
    const month = day.toISOString().slice(0, 7);
    const at = (minutes: number) => new Date(day.getTime() + minutes * 60_000).toISOString();
    const make = (vehicle: string, n: number, wrong: Record<string, unknown>, from: number) =>
      Array.from({ length: n }, (_, i) =>
        makeReading({
          vehicle,
          at: at(from + i),
          odometer_km: 100_000 + from + i,
          load_pct: 50,
          speed_kmh: 60,
          ...wrong,
        }),
      );
    await one.deliver([...make('O-1', 6, {}, 0), ...make('O-1', 2, { fluid_c: 20 }, 20)]);
    await two.deliver([...make('T-1', 4, {}, 0), ...make('T-1', 4, { shifting: true }, 20)]);
    await assess();
    const shares = await ask<SetAsideShares>('/api/gateways/set-aside');
    expect(shares.months).toHaveLength(12);
    const found = shares.gateways.map(({ sender, months }) => [
      sender.name,
      months.find((m) => m.month === month),
    ]);
    expect(Object.fromEntries(found)).toEqual({
      One: { month, readings: 8, set_aside: { cold: 2 } },
      Two: { month, readings: 8, set_aside: { shifting: 4 } },
    });
  });
});

it('lists vehicles that lack something, and those whose VIN may be wrong', async () => {
  await app.deliver(toNdjson([makeReading({ vehicle: 'NEW-1' })]), NDJSON);
  await app.post('/api/depots', { id: 'yard', name: 'Yard' });
  await app.post('/api/platforms', { id: 'p', name: 'P' });
  const known = { depot: 'yard', platform: 'p' };
  await app.post('/api/vehicles', [
    // 1M8GDM9AXKP042788 is the usual example of a VIN whose check digit is X (49 CFR 565.15).
    { id: 'WHOLE', ...known, vin: '1M8GDM9AXKP042788' },
    { id: 'TYPO', ...known, vin: '1M8GDM9A1KP042788' },
    { id: 'HALF', depot: 'yard' },
    { id: 'GONE', retired: true },
  ]);
  const all = await ask<ToComplete>('/api/intake/vehicles');
  expect(all).toMatchObject({
    total: 3,
    by_lack: { registered: 1, depot: 1, platform: 2, vin: 1 },
    rows: [
      { vehicle: 'HALF', lacks: ['platform'] },
      { vehicle: 'NEW-1', lacks: ['registered', 'depot', 'platform'], odometer_km: 120_346 },
      { vehicle: 'TYPO', lacks: ['vin'], vin_warning: expect.stringContaining('check digit') },
    ],
  });
  const named = async (query: string) =>
    (await ask<ToComplete>(`/api/intake/vehicles?${query}`)).rows.map(({ vehicle }) => vehicle);
  expect(await named('lack=platform')).toEqual(['HALF', 'NEW-1']);
  expect(await named('q=typ')).toEqual(['TYPO']);
});

describe('a jump of an odometer', () => {
  const put = (body: unknown) =>
    fetch(`${app.url}/api/odometer-answers`, {
      method: 'PUT',
      headers: { authorization: `Bearer ${TEST_KEY}`, 'content-type': 'application/json' },
      body: JSON.stringify(body),
    });
  const questionsOf = (query = '') => ask<OdometerQuestions>(`/api/odometer-questions${query}`);

  it('is a question until it is answered, and the answer stands in the history', async () => {
    const step = 60;
    await app.deliver(
      toNdjson(
        Array.from({ length: 2 * step }, (_, i) =>
          makeReading({
            vehicle: 'OLD-1',
            at: minutesLater(i * 60),
            odometer_km: (i < step ? 200_000 : 5) + i * 10,
            load_pct: 50,
            speed_kmh: 60,
          }),
        ),
      ),
      NDJSON,
    );
    await assess();
    const [asked] = (await questionsOf()).rows;
    expect(asked).toMatchObject({ vehicle: 'OLD-1', before_km: 200_590, after_km: 605, answer: null });
    expect(asked?.jump_km).toBeLessThan(-199_000);
    const questions = async () => (await ask<VehicleDetail>('/api/vehicles/OLD-1')).questions.join(' ');
    expect(await questions()).toContain('Was the odometer changed');
    const answer = { vehicle: 'OLD-1', at: asked?.at, answer: 'changed', note: 'New dashboard.' };
    expect((await put({ ...answer, at: '2020-01-01T00:00:00Z' })).status).toBe(404);
    expect((await put({ ...answer, answer: 'perhaps' })).status).toBe(400);
    expect((await put(answer)).status).toBe(204);
    expect(await questions()).not.toContain('Was the odometer changed');
    expect(await questionsOf()).toMatchObject({ total: 0, rows: [] });
    const { events } = await ask<VehicleHistory>('/api/vehicles/OLD-1/history');
    expect(events.find(({ kind }) => kind === 'odometer_answer')?.text).toMatch(
      /set-up key says: the instrument was changed or set\. New dashboard\.$/,
    );
    expect((await questionsOf('?answered=true')).rows).toMatchObject([
      { answer: { answer: 'changed', note: 'New dashboard.', answered_by: 'set-up key' } },
    ]);
    // Late readings move the step by some hours: it is still the same one.
    await app.client`update odometer_steps set at = at + interval '5 hours'`;
    expect((await questionsOf()).total).toBe(0);
    const [moved] = (await questionsOf('?answered=true')).rows;
    expect((await put({ ...answer, at: moved?.at, answer: 'misread', note: '' })).status).toBe(204);
    expect(await app.client`select answer from odometer_answers`).toMatchObject([{ answer: 'misread' }]);
    expect((await put({ ...answer, at: moved?.at, answer: null })).status).toBe(204);
    expect((await questionsOf()).total).toBe(1);
  });
});

it('is shut to people of some depots', async () => {
  const planner = await signInAs(app, 'planner', { depots: ['north'] });
  for (const path of [
    '/api/receipts',
    '/api/intake/throughput',
    '/api/refused',
    '/api/refused/lines',
    '/api/gateways',
    '/api/gateways/set-aside',
    '/api/intake/vehicles',
    '/api/odometer-questions',
  ]) {
    const answer = await fetch(app.url + path, { headers: planner.headers });
    expect([path, answer.status]).toEqual([path, 403]);
  }
});
