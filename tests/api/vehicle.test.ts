import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ranking } from '#server/contract/ranking.ts';
import { vehicleDetail, vehicleHistory, vehicleSeries } from '#server/contract/vehicle.ts';
import { makeReading } from '#tests/helpers/make-reading.ts';
import { plainEnd, sendPlainFleet } from '#tests/helpers/send-plain-fleet.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';

let app: TestApp;
beforeAll(async () => {
  app = await startApp({}, plainEnd);
  await sendPlainFleet(app);
});
afterAll(() => app?.stop());

async function read(path: string): Promise<unknown> {
  const answer = await app.get(path);
  expect(answer.status).toBe(200);
  return answer.json();
}

describe('one vehicle', () => {
  it('answers with the row of the list, its sentence and its names', async () => {
    const found = vehicleDetail.parse(await read('/api/vehicles/P-02'));
    const { rows } = ranking.parse(await read('/api/ranking?q=P-02'));
    expect(found.assessment).toEqual(rows[0]);
    expect(found).toMatchObject({ depot_name: 'South yard', platform_name: 'Type P', questions: [] });
    expect(found.sentence).toMatch(/^Slip at 85 % command has risen from \d+ to \d+ rpm over [\d,]+ km/);
  });

  it('is worded in miles for who reads miles', async () => {
    const found = vehicleDetail.parse(await read('/api/vehicles/P-02?units=imperial'));
    expect(found.sentence).toMatch(/over [\d,]+ mi\b/);
    expect(found.sentence).not.toMatch(/\bkm\b/);
  });

  it('that only sent one reading says what is missing rather than a judgement', async () => {
    await app.post('/api/readings', [makeReading({ vehicle: 'new/one 1', at: '2026-03-03T10:00:00Z' })]);
    await app.post('/api/assess', {});
    const path = `/api/vehicles/${encodeURIComponent('new/one 1')}`;
    const found = vehicleDetail.parse(await read(path));
    expect(found.assessment?.grade).toBe('unknown');
    expect(found.assessment?.missing.join()).toMatch(/Only 1 of the 6 stretches/);
    expect(found.questions).toContain('Which platform is this vehicle?');
    const series = vehicleSeries.parse(await read(`${path}/series`));
    expect(series.forecast).toBe(null);
    expect(series.series[0]?.points).toHaveLength(1);
  });

  it.each(['', '/series', '/history'])(
    'that nobody knows is a problem that names it, at %s',
    async (part) => {
      const answer = await app.get(`/api/vehicles/X-404${part}`);
      expect(answer.status).toBe(404);
      expect(answer.headers.get('content-type')).toBe('application/problem+json');
      expect(await answer.json()).toMatchObject({
        code: 'not_found',
        detail: expect.stringContaining("'X-404'"),
      });
    },
  );

  it.each(['%00', 'x'.repeat(65), '%FF', "'; drop table vehicles; --"])(
    'named %s is declined without harm',
    async (name) => {
      const answer = await app.get(`/api/vehicles/${name}`);
      expect([400, 404]).toContain(answer.status);
      expect(answer.headers.get('content-type')).toBe('application/problem+json');
    },
  );
});

describe('the series of a vehicle', () => {
  it('has the reference point first, then every command band, with fit and forecast', async () => {
    const found = vehicleSeries.parse(await read('/api/vehicles/P-02/series'));
    expect(found.series.map((one) => one.band)).toEqual(['reference', '40-55', '55-70', '70-85', '85-100']);
    const [reference] = found.series;
    const kms = (reference?.points ?? []).map((point) => point.odometer_km);
    expect(kms).toEqual([...kms].sort((a, b) => a - b));
    expect(kms.length).toBeGreaterThan(25);
    const fit = reference?.fits[0];
    expect(fit?.onset_km?.estimate).toBeGreaterThan(fit?.from_km ?? Number.NaN);
    expect(fit?.line.length).toBeGreaterThan(2);
    expect(found.forecast?.km_to_limit.p50).toBeGreaterThan(0);
    for (const point of found.forecast?.points ?? []) {
      const { p2_5, p10, p25, p50, p75, p90, p97_5 } = point;
      const fan = [p2_5, p10, p25, p50, p75, p90, p97_5];
      expect(fan).toEqual([...fan].sort((a, b) => a - b));
    }
    expect(found.limit_rpm).toBe(150);
    expect(found.fleet_events).toEqual([]);
  });

  it('compares command then and now, and counts what was set aside and why', async () => {
    const found = vehicleSeries.parse(await read('/api/vehicles/P-02/series'));
    const [then, now] = [found.by_duty?.healthy ?? [], found.by_duty?.now ?? []];
    expect(then.length).toBe(3);
    for (const [i, point] of now.entries())
      expect(point.slip_rpm).toBeGreaterThan(2 * (then[i]?.slip_rpm ?? Number.NaN));
    const [stored] = await app.client`
      select count(*)::int as n from readings r join vehicles v on v.key = r.vehicle where unit = 'P-02'`;
    expect(found.readings.usable + found.readings.set_aside).toBe(stored?.n);
    const reasons = new Set(found.set_aside.map((one) => one.reason));
    expect([...reasons].sort()).toEqual(expect.arrayContaining(['cold', 'shifting']));
    const shares = (found.exposure.fluid_c ?? []).reduce((sum, bin) => sum + bin.share, 0);
    expect(shares).toBeCloseTo(1, 9);
  });
});

describe('the history of a vehicle', () => {
  it('tells, newest first, of its first reading, its grade and its converter', async () => {
    await app.post('/api/lives', {
      vehicle: 'P-05',
      fitted_km: 109_000,
      source: 'rebuilt',
      supplier: 'Own shop',
    });
    await app.post('/api/assess', {});
    const { events } = vehicleHistory.parse(await read('/api/vehicles/P-05/history'));
    const times = events.map((event) => Date.parse(event.at));
    expect(times).toEqual([...times].sort((a, b) => b - a));
    const kinds = events.map((event) => event.kind);
    expect(kinds).toEqual(expect.arrayContaining(['first_reading', 'grade_changed', 'life_began']));
    const life = events.find((event) => event.kind === 'life_began');
    expect(life).toMatchObject({ odometer_km: 109_000, text: 'Converter fitted: rebuilt, from Own shop' });
  });

  it('tells of refused lines and codes', async () => {
    const reading = makeReading({ vehicle: 'P-06', at: '2026-03-03T23:30:00Z', odometer_km: 132_600 });
    await app.post('/api/readings', [
      { ...reading, codes: ['P0741'] },
      { ...reading, at: '2026-03-03T23:31:00Z', duty_pct: 255 },
    ]);
    await app.post('/api/assess', {});
    const { events } = vehicleHistory.parse(await read('/api/vehicles/P-06/history'));
    expect(events.find((event) => event.kind === 'refused_lines')?.text).toBe('1 line was refused and kept');
    expect(events.find((event) => event.kind === 'code_seen')?.text).toBe(
      'Trouble code P0741 (converter clutch performance, or stuck off) seen once',
    );
    const { rows } = ranking.parse(await read('/api/ranking?q=P-06'));
    expect(rows[0]).toMatchObject({ pattern: 'code_only' });
    expect(['hold', 'book']).toContain(rows[0]?.grade);
  });
});

it('answers every path with GET that its description names and a key may read', async () => {
  const document = await (await app.get('/api/openapi.json')).json();
  const [receipt] = await app.client`select id from receipts limit 1`;
  const { address } = await (await app.post('/api/depots/south/feed', '')).json();
  const waits = { vehicle: 'P-02', reason: 'A lift is awaited.' };
  const { booked } = await (await app.post('/api/bookings', waits)).json();
  const packet = await (await app.post('/api/packets', { vehicle: 'P-03' })).json();
  const trace = `time_s,throttle_pct,speed_kmh,slip_rpm,duty_pct\n${Array.from({ length: 30 }, (_, i) => `${i},40,80,12,80`).join('\n')}`;
  const { finding } = await (
    await app.post(`/api/packets/${packet.id}/road-test`, trace, { 'content-type': 'text/csv' })
  ).json();
  const [file] = await app.client`select id from packet_files`;
  const [replayed] = await app.client`
    insert into replays (asked_at, asker, asked_by, request, state, result)
    values (now(), 'key:x', 'x', '{}', 'done', '{"scores": [], "came": [], "needless": []}') returning id`;
  const replay = String(replayed?.id);
  const hook = { name: 'Yard', url: 'https://yard.example/' };
  const { webhook } = await (await app.post('/api/webhooks', hook)).json();
  const ids: Record<string, string> = {
    '/api/receipts/{id}': receipt?.id,
    '/api/bookings/{id}': String(booked[0].id),
    '/api/depots/{id}/feed': 'south',
    '/api/analysis/replays/{id}': replay,
    '/api/analysis/replays/{id}/came.csv': replay,
    '/api/analysis/replays/{id}/needless.csv': replay,
    '/api/feeds/{file}': String(address).split('/').at(-1) ?? '',
    '/api/export/{file}': 'lives.csv',
    '/api/webhooks/{id}/posts': String(webhook.id),
    '/api/platforms/{id}/movement': 'p-type',
    '/api/platforms/{id}/atlas': 'p-type',
  };
  const paths = Object.entries<Record<string, { 'x-access': string; responses: Record<string, unknown> }>>(
    document.paths,
  ).filter(
    ([, item]) =>
      item.get !== undefined && !/(self|ownLink)$/i.test(item.get['x-access']) && !item.get.responses['302'],
  );
  const queries: Record<string, string> = { '/api/ranking/explain': '?vehicle=P-02' };
  expect(paths.length).toBeGreaterThan(5);
  for (const [path] of paths) {
    const id = path.startsWith('/api/packets/') ? String(packet.id) : (ids[path] ?? 'P-02');
    const named = path.replace('{finding}', finding.id).replace(/(?<=files\/)\{file\}/, file?.id);
    const answer = await app.get(named.replace(/\{\w+\}/, id) + (queries[path] ?? ''));
    expect([path, answer.status]).toEqual([path, 200]);
  }
});
