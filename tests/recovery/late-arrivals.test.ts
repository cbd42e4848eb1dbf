import { beforeAll, describe, expect, it } from 'vitest';
import { ranking } from '#server/contract/ranking.ts';
import type { ReadingInput } from '#server/contract/readings.ts';
import { drivePlainly, type PlainVehicle } from '#tests/helpers/drive-plainly.ts';
import { toNdjson } from '#tests/helpers/make-reading.ts';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';

const start = new Date('2025-10-06T00:00:00Z');
const now = new Date('2026-02-10T12:00:00Z');
const days = 120;

/** Ten vehicles: one slips more and more, one got another odometer, one another converter, one both. */
const vehicles: PlainVehicle[] = Array.from({ length: 10 }, (_, i) => ({
  unit: `L-${i}`,
  firstKm: 90_000 + 7_000 * i,
  kmPerDay: 140 + 6 * i,
  slipOn: (day: number) => {
    if (i === 0) return 12 + Math.max(0, day - 30) * 1.4;
    if (i === 2 || i === 3) return day < 60 ? 14 + 1.6 * day : 13;
    return 11 + 0.3 * i;
  },
  ...(i === 1 || i === 3 ? { odometerChange: { day: 45 + 10 * i, lessKm: 61_000 } } : {}),
}));
/** The border lies in the middle of a stretch. */
const lives = [2, 3].map((i) => ({
  vehicle: `L-${i}`,
  fitted_km: Math.round((vehicles[i]?.firstKm ?? 0) + 60 * (vehicles[i]?.kmPerDay ?? 0)),
  source: 'rebuilt',
}));
const readings = drivePlainly(vehicles, start, days, 11);

type Plan = (app: TestApp) => Promise<void>;

async function deliver(app: TestApp, part: readonly ReadingInput[]): Promise<void> {
  const headers = { 'content-type': 'application/x-ndjson' };
  const answer = await app.post('/api/readings', toNdjson([...part]), headers);
  expect(await answer.json()).toMatchObject({ received: part.length, refused: 0 });
}

const assess = async (app: TestApp) => expect((await app.post('/api/assess', {})).status).toBe(200);

const inOrder: Plan = async (app) => {
  await deliver(app, readings);
};

/** Each reading goes to any of nine deliveries and one in eight to two, in any order; assessed after each. */
const shuffled: Plan = async (app) => {
  const { uniform } = seededRandom(5);
  const deliveries: ReadingInput[][] = Array.from({ length: 9 }, () => []);
  for (const reading of readings)
    for (let copies = uniform() < 1 / 8 ? 2 : 1; copies > 0; copies--)
      deliveries[Math.floor(uniform() * 9)]?.push(reading);
  for (const delivery of deliveries) {
    await deliver(
      app,
      delivery
        .map((reading) => ({ reading, key: uniform() }))
        .sort((a, b) => a.key - b.key)
        .map(({ reading }) => reading),
    );
    await assess(app);
  }
};

/** As a fleet sends: four days at a time, one vehicle's lines a fortnight late; assessed after each. */
const bitByBit: Plan = async (app) => {
  let held: ReadingInput[] = [];
  const dayOf = ({ at }: ReadingInput) => Math.floor((Date.parse(at) - start.getTime()) / 86_400_000);
  for (let from = 0; from < days; from += 4) {
    const part = readings.filter((reading) => dayOf(reading) >= from && dayOf(reading) < from + 4);
    const isHeld = ({ vehicle }: ReadingInput) => vehicle === 'L-3' || vehicle === 'L-4';
    await deliver(
      app,
      part.filter((reading) => !isHeld(reading)),
    );
    held.push(...part.filter(isHeld));
    if (from % 16 === 12) {
      await deliver(app, held);
      held = [];
    }
    await assess(app);
  }
  if (held.length > 0) await deliver(app, held);
};

async function run(plan: Plan) {
  const app = await startApp({}, now);
  try {
    await app.post('/api/platforms', { id: 'plain', name: 'Plain', limit_rpm: 180 });
    await app.post(
      '/api/vehicles',
      vehicles.map(({ unit }) => ({ id: unit, platform: 'plain' })),
    );
    expect((await app.post('/api/lives', lives)).status).toBe(200);
    await plan(app);
    await assess(app);
    const { rows } = ranking.parse(await (await app.get('/api/ranking')).json());
    return {
      stretches: await app.client`
        select v.unit, to_jsonb(s) - 'vehicle' as row from stretches s join vehicles v on v.key = s.vehicle
        order by v.unit, life, band, stretch`,
      totals: await app.client`
        select v.unit, to_jsonb(t) - 'vehicle' as row from stretch_totals t join vehicles v on v.key = t.vehicle
        order by v.unit, life, stretch`,
      steps: await app.client`
        select v.unit, to_jsonb(o) - 'vehicle' as row from odometer_steps o join vehicles v on v.key = o.vehicle
        order by v.unit, at`,
      rows,
    };
  } finally {
    await app.stop();
  }
}

let reference: Awaited<ReturnType<typeof run>>;
beforeAll(async () => {
  reference = await run(inOrder);
});

describe('readings that come late, out of order and twice', () => {
  it('are a fleet with something to tell apart: a slipping vehicle, odometer steps, lives', () => {
    expect(reference.rows[0]?.vehicle).toBe('L-0');
    expect(reference.steps.map((step) => step.unit)).toEqual(['L-1', 'L-3']);
    const livesOf = (unit: string) =>
      new Set(reference.stretches.filter((one) => one.unit === unit).map(({ row }) => row.life));
    expect(livesOf('L-2').size).toBe(2);
    expect(livesOf('L-3').size).toBe(2);
    expect(reference.stretches.length).toBeGreaterThan(1_000);
  });

  it.each([
    ['shuffled over nine deliveries, some twice', shuffled],
    ['bit by bit, two vehicles a fortnight late', bitByBit],
  ] as const)('give the same stretches to the last digit and the same list when sent %s', async (_, plan) => {
    const other = await run(plan);
    expect(other.steps).toEqual(reference.steps);
    expect(other.totals).toEqual(reference.totals);
    expect(other.stretches).toEqual(reference.stretches);
    expect(other.rows).toEqual(reference.rows);
  });
});
