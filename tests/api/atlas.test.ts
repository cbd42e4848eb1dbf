import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { atlasReply } from '#server/contract/atlas.ts';
import { makeReading, toNdjson } from '#tests/helpers/make-reading.ts';
import { signInAs } from '#tests/helpers/sign-in.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';

const DAY_MS = 86_400_000;
const end = new Date('2026-03-04T00:00:00Z');

interface Step {
  /** days before the end */
  daysAgo: number;
  slip: number;
  duty: number;
  fluid?: number;
  n: number;
}

/** Equal readings a minute and 1 km apart: the stretch that they fall into has exactly their slip, duty and heat. */
const drive = (unit: string, steps: readonly Step[]) =>
  steps.flatMap(({ daysAgo, slip, duty, fluid, n }, i) =>
    Array.from({ length: n }, (_, k) => {
      const { fluid_c: _fluid, ...reading } = makeReading({
        vehicle: unit,
        at: new Date(end.getTime() - daysAgo * DAY_MS + k * 60_000).toISOString(),
        odometer_km: 100_000 + 500 * i + k,
        slip_rpm: slip,
        duty_pct: duty,
        load_pct: 50,
      });
      return fluid === undefined ? reading : { ...reading, fluid_c: fluid };
    }),
  );

let app: TestApp;
beforeAll(async () => {
  app = await startApp({}, end);
  const post = async (path: string, body: unknown, type = 'application/json') => {
    const answer = await app.post(path, body, { 'content-type': type });
    expect([path, answer.status]).toEqual([path, 200]);
  };
  await post('/api/platforms', [
    { id: 'box', name: 'Box truck', limit_rpm: 150 },
    { id: 'bare', name: 'Bare feed' },
    { id: 'none', name: 'Nothing yet' },
  ]);
  await post('/api/depots', [
    { id: 'north', name: 'North' },
    { id: 'south', name: 'South' },
  ]);
  await post('/api/vehicles', [
    { id: 'A', platform: 'box', depot: 'north' },
    { id: 'B', platform: 'box', depot: 'north' },
    { id: 'C', platform: 'box', depot: 'south' },
    { id: 'D', platform: 'bare' },
  ]);
  const readings = [
    ...drive('A', [{ daysAgo: 20, slip: 10.3, duty: 82, fluid: 88, n: 30 }]),
    ...drive('B', [{ daysAgo: 18, slip: 20.3, duty: 82, fluid: 93, n: 60 }]),
    ...drive('C', [
      { daysAgo: 300, slip: 14.3, duty: 82, fluid: 88, n: 20 },
      { daysAgo: 16, slip: 90.3, duty: 82, fluid: 88, n: 10 },
      { daysAgo: 2, slip: 190.3, duty: 91, fluid: 88, n: 5 },
    ]),
    ...drive('D', [{ daysAgo: 2, slip: 12, duty: 82, n: 8 }]),
  ];
  await post('/api/readings', toNdjson(readings), 'application/x-ndjson');
  await post('/api/assess', {});
});
afterAll(() => app?.stop());

const ask = async (query = '', platform = 'box', get = app.get) => {
  const answer = await get(`/api/platforms/${platform}/atlas${query}`);
  expect(answer.status).toBe(200);
  return atlasReply.parse(await answer.json());
};

describe('the atlas of a platform', () => {
  it('counts the readings of each cell, and has quantiles of those weighted by readings', async () => {
    const { by_command, vehicles, stretches, from, to, choices } = await ask();
    // Five vehicle stretches by band: A, B, and three of C; 85 % is the edge between the two bands.
    expect([vehicles, stretches, choices]).toEqual([3, 5, ['A', 'B', 'C']]);
    expect(Date.parse(to ?? '') - Date.parse(from ?? '')).toBe(365 * DAY_MS);
    expect(by_command.x_edges).toEqual([40, 45, 50, 55, 60, 65, 70, 75, 80, 85, 90, 95, 100]);
    // 150 rpm and a fifth more, in steps of 2 rpm.
    expect([by_command.slip_edges[1], by_command.slip_edges.at(-1)]).toEqual([2, 180]);
    const at80 = by_command.readings[8] ?? [];
    expect([at80[5], at80[7], at80[10], at80[45]]).toEqual([30, 20, 60, 10]);
    expect(at80.reduce((sum, n) => sum + n, 0)).toBe(120);
    // In order: 30 at 10.3, 20 at 14.3, 60 at 20.3, 10 at 90.3. 5 % is the 6th, 25 % the 30th, 50 % the 60th, 95 % the 114th.
    expect(by_command.quantiles[0]).toEqual({
      ...{ x: 82.5, n: 120, vehicles: 3 },
      ...{ p05: 10.3, p25: 10.3, p50: 20.3, p75: 20.3, p95: 90.3 },
    });
    expect(by_command.above).toBe(5);
    expect(by_command.quantiles[1]).toMatchObject({ x: 92.5, n: 5, vehicles: 1, p50: 190.3 });
  });

  it('has the same against the temperature of the fluid, each reading once', async () => {
    const { by_fluid } = await ask();
    expect(by_fluid?.x_edges).toEqual([85, 90, 95]);
    expect(by_fluid?.quantiles.map(({ x, n, vehicles }) => [x, n, vehicles])).toEqual([
      [87.5, 65, 2],
      [92.5, 60, 1],
    ]);
  });

  it('looks back no further than asked', async () => {
    const { by_command, stretches } = await ask('?days=30');
    expect(stretches).toBe(4);
    expect(by_command.readings[8]?.[7]).toBe(0);
  });

  it('lays one vehicle on top, oldest first, and says where it lies among the others', async () => {
    const { by_command, by_fluid, standing } = await ask('?vehicle=B');
    expect(by_command.vehicle?.map(({ x, slip_rpm, n }) => [x, slip_rpm, n])).toEqual([[82, 20.3, 60]]);
    expect(by_fluid?.vehicle?.map(({ x }) => x)).toEqual([93]);
    // Of the others' 60 readings at 70 to 85 %, 30 at 10.3 and 20 at 14.3 lie below 20.3: 50 of 60.
    expect(standing).toEqual({
      ...{ vehicle: 'B', from_pct: 70, to_pct: 85, slip_rpm: 20.3, stretches: 1 },
      ...{ middle_rpm: 10.3, others: 60, share_below: 50 / 60 },
    });
    const ofC = await ask('?vehicle=C');
    expect(ofC.by_command.vehicle?.map(({ slip_rpm }) => slip_rpm)).toEqual([14.3, 90.3, 190.3]);
  });

  it('is of the depots of who asks', async () => {
    const { headers } = await signInAs(app, 'analyst', { depots: ['south'] });
    const get = (path: string) => fetch(app.url + path, { headers });
    const { choices, by_command, standing } = await ask('?vehicle=C', 'box', get);
    expect(choices).toEqual(['C']);
    expect(by_command.quantiles[0]).toMatchObject({ n: 30, vehicles: 1 });
    // Nobody is left to compare with.
    expect(standing).toBe(null);
    const unseen = await get('/api/platforms/box/atlas?vehicle=A');
    expect(unseen.status).toBe(400);
  });

  it('does without what a feed lacks', async () => {
    const { by_fluid, by_command } = await ask('', 'bare');
    expect(by_fluid).toBe(null);
    expect(by_command.quantiles.map(({ p50 }) => p50)).toEqual([12]);
  });

  it('is empty where nothing came yet', async () => {
    const { vehicles, from, to, by_command } = await ask('', 'none');
    expect([vehicles, from, to, by_command.quantiles]).toEqual([0, null, null, []]);
  });
});

describe('a question that cannot be answered', () => {
  it.each([
    ['nothing', '', 404, "No platform 'nothing' is known"],
    ['box', '?vehicle=Z', 400, "Vehicle 'Z' is not known"],
    ['box', '?vehicle=D', 400, "Vehicle 'D' belongs to the platform 'bare'"],
    ['box', '?days=3', 400, 'days'],
  ])('of %s%s is refused with %i', async (platform, query, status, words) => {
    const answer = await app.get(`/api/platforms/${platform}/atlas${query}`);
    expect(answer.status).toBe(status);
    expect(JSON.stringify(await answer.json())).toContain(words);
  });
});
