import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { dropReadingMonthsBefore } from '#db/partitions.ts';
import type { ReadingInput } from '#server/contract/readings.ts';
import { drivePlainly } from '#tests/helpers/drive-plainly.ts';
import { toNdjson } from '#tests/helpers/make-reading.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';

const start = new Date('2025-10-06T00:00:00Z');
const days = 130;
/** 37 km a day: a stretch of 500 km takes a fortnight, so one lies across the end of each month. */
const readings = drivePlainly(
  [
    { unit: 'R-1', firstKm: 50_020, kmPerDay: 37, slipOn: (day) => 12 + Math.max(0, day - 40) },
    {
      unit: 'R-2',
      firstKm: 81_000,
      kmPerDay: 150,
      slipOn: () => 14,
      odometerChange: { day: 20, lessKm: 30_000 },
    },
  ],
  start,
  days,
  3,
);
const until = (moment: string) => readings.filter(({ at }) => at < moment);
const since = (moment: string) => readings.filter(({ at }) => at >= moment);

let app: TestApp;
beforeAll(async () => {
  app = await startApp({}, new Date('2026-02-20T00:00:00Z'));
});
afterAll(() => app.stop());

async function deliver(part: readonly ReadingInput[]): Promise<void> {
  const headers = { 'content-type': 'application/x-ndjson' };
  expect((await app.post('/api/readings', toNdjson([...part]), headers)).status).toBe(200);
  expect((await app.post('/api/assess', {})).status).toBe(200);
}

/** All that the stretches hold that began before a moment. */
async function stored(moment: string) {
  const totals = await app.client`
    select v.unit, to_jsonb(t) - 'vehicle' as row from stretch_totals t join vehicles v on v.key = t.vehicle
    where first_at < ${moment} order by v.unit, life, stretch`;
  const keys = totals.map(({ unit, row }) => `${unit} ${row.life} ${row.stretch}`);
  const stretches = await app.client`
    select v.unit, to_jsonb(s) - 'vehicle' as row from stretches s join vehicles v on v.key = s.vehicle
    order by v.unit, life, band, stretch`;
  const steps = await app.client`select * from odometer_steps order by vehicle, at`;
  return {
    totals,
    stretches: stretches.filter(({ unit, row }) => keys.includes(`${unit} ${row.life} ${row.stretch}`)),
    steps,
  };
}

const DROPPED = '2025-12-01T00:00:00.000Z';

describe('stretches whose readings retention has dropped', () => {
  it('stay when new readings of the vehicle arrive, also the one across the end of the month', async () => {
    await deliver(until('2025-12-04'));
    const kept = await stored(DROPPED);
    expect(kept.steps).toHaveLength(1);
    expect(kept.totals.some(({ row }) => row.first_at < DROPPED && row.last_at > DROPPED)).toBe(true);
    expect(await dropReadingMonthsBefore(app.db, new Date(DROPPED))).toEqual(['2025-10', '2025-11']);
    await deliver(since('2025-12-04').filter(({ at }) => at < '2026-01-10'));
    expect(await stored(DROPPED)).toEqual(kept);
  });

  it('stay when a late reading of such a month arrives, which is stored', async () => {
    const kept = await stored(DROPPED);
    const late = until('2025-11-20')
      .slice(-2)
      .map((reading) => ({ ...reading, at: reading.at.replace(/:\d\dZ|:\d\d\.\d+Z/, ':59Z') }));
    await deliver(late);
    const [count] = await app.client`select count(*)::int as n from readings where at < ${DROPPED}`;
    expect(count?.n).toBe(2);
    expect(await stored(DROPPED)).toEqual(kept);
    await dropReadingMonthsBefore(app.db, new Date(DROPPED));
  });

  it('stay when a rule of their platform changes, while later ones follow it', async () => {
    await app.post('/api/platforms', { id: 'plain', name: 'Plain' });
    await app.post(
      '/api/vehicles',
      ['R-1', 'R-2'].map((id) => ({ id, platform: 'plain' })),
    );
    await app.post('/api/assess', {});
    const kept = await stored(DROPPED);
    const [usual] =
      await app.client`select sum(usable)::int as n from stretch_totals where first_at > ${DROPPED}`;
    await app.post('/api/platforms', { id: 'plain', name: 'Plain', gate: { low_load_pct: 45 } });
    await app.post('/api/assess', {});
    expect(await stored(DROPPED)).toEqual(kept);
    const [fewer] =
      await app.client`select sum(usable)::int as n from stretch_totals where first_at > ${DROPPED}`;
    expect(kept.totals.length).toBeGreaterThan(15);
    expect(fewer?.n).toBeLessThan(0.9 * usual?.n);
  });

  it('follow what is registered of lives, which their kilometres tell', async () => {
    const lifeOf = async () =>
      (
        await app.client`
          select distinct t.life from stretch_totals t join vehicles v on v.key = t.vehicle
          where v.unit = 'R-1' and first_at < ${DROPPED} order by life`
      ).map((row) => row.life);
    expect(await lifeOf()).toEqual([1]);
    await app.post('/api/lives', { vehicle: 'R-1', fitted_km: 51_000, source: 'rebuilt' });
    await app.post('/api/assess', {});
    expect(await lifeOf()).toEqual([0, 1]);
    await app.post('/api/lives', { vehicle: 'R-1', fitted_km: 0, source: 'original' });
    await app.post('/api/assess', {});
    expect(await lifeOf()).toEqual([1, 2]);
  });

  it('are followed by stretches as if nothing had been dropped', async () => {
    await app.post('/api/platforms', { id: 'plain', name: 'Plain', gate: { low_load_pct: 15 } });
    await deliver(since('2026-01-10'));
    const whole = await startApp({}, new Date('2026-02-20T00:00:00Z'));
    try {
      const headers = { 'content-type': 'application/x-ndjson' };
      await whole.post('/api/platforms', { id: 'plain', name: 'Plain' });
      await whole.post(
        '/api/vehicles',
        ['R-1', 'R-2'].map((id) => ({ id, platform: 'plain' })),
      );
      await whole.post('/api/lives', [
        { vehicle: 'R-1', fitted_km: 0, source: 'original' },
        { vehicle: 'R-1', fitted_km: 51_000, source: 'rebuilt' },
      ]);
      await whole.post('/api/readings', toNdjson(readings), headers);
      await whole.post('/api/assess', {});
      const read = ({ client }: TestApp) => client`
        select v.unit, to_jsonb(s) - 'vehicle' as row from stretches s join vehicles v on v.key = s.vehicle
        where first_at >= '2025-12-16' order by v.unit, life, band, stretch`;
      expect(await read(app)).toEqual(await read(whole));
    } finally {
      await whole.stop();
    }
  });

  it('are built from a history that comes whole, however old it is', async () => {
    const old = drivePlainly(
      [{ unit: 'R-9', firstKm: 10_000, kmPerDay: 150, slipOn: () => 14 }],
      new Date('2024-03-04T00:00:00Z'),
      40,
      9,
    );
    await deliver(old);
    const [count] = await app.client`
      select count(*)::int as n from stretch_totals t join vehicles v on v.key = t.vehicle where unit = 'R-9'`;
    expect(count?.n).toBe(12);
  });
});
