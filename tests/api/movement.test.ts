import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { z } from 'zod';
import { platformMovement, platformSummary } from '#server/contract/movement.ts';
import { vehicleSeries } from '#server/contract/vehicle.ts';
import { drivePlainly, type PlainVehicle } from '#tests/helpers/drive-plainly.ts';
import { toNdjson } from '#tests/helpers/make-reading.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';

const DAY_MS = 86_400_000;
const end = new Date('2026-03-04T00:00:00Z');
const days = 120;
const start = new Date(end.getTime() - days * DAY_MS);
const stepDay = 70;
const stepRpm = 25;

const vehicle = (unit: string, i: number, slipOn: PlainVehicle['slipOn']): PlainVehicle => ({
  unit,
  firstKm: 60_000 + 9_000 * i,
  kmPerDay: 180 + 5 * i,
  slipOn,
});
const group = (letter: string, n: number, slipOn: PlainVehicle['slipOn']) =>
  Array.from({ length: n }, (_, i) => vehicle(`${letter}-${i + 1}`, i, slipOn));
const stepped = group('S', 10, (day) => (day >= stepDay ? 14 + stepRpm : 14));
const quiet = group('Q', 9, () => 12);
const few = group('F', 3, () => 12);
const unassigned = group('N', 2, () => 12);

let app: TestApp;
beforeAll(async () => {
  app = await startApp({}, end);
  const post = async (path: string, body: unknown, type = 'application/json') => {
    const answer = await app.post(path, body, { 'content-type': type });
    expect([path, answer.status]).toEqual([path, 200]);
  };
  await post('/api/platforms', [
    { id: 'stepped', name: 'A type', limit_rpm: 170, reference_torque_nm: 800 },
    { id: 'quiet/type', name: 'B type' },
    { id: 'few', name: 'C type' },
    { id: 'none', name: 'D type' },
  ]);
  const platformOf: Record<string, string> = { S: 'stepped', Q: 'quiet/type', F: 'few' };
  const all = [...stepped, ...quiet, ...few, ...unassigned];
  await post(
    '/api/vehicles',
    all.flatMap(({ unit }) => {
      const platform = platformOf[unit.slice(0, 1)];
      return platform === undefined ? [] : [{ id: unit, platform }];
    }),
  );
  await post('/api/vehicles', { id: 'S-10', retired: true });
  const readings = drivePlainly(all, start, days, 31).map((reading) =>
    reading.vehicle.startsWith('S')
      ? {
          ...reading,
          torque_pct: reading.vehicle === 'S-1' ? 75 : 25,
          speed_kmh: 80,
          ...(reading.vehicle === 'S-2' ? { fluid_c: 104 } : {}),
        }
      : { ...reading, ...(reading.vehicle.startsWith('F') ? { load_pct: undefined } : {}) },
  );
  await post('/api/readings', toNdjson(readings), 'application/x-ndjson');
  await post('/api/assess', {});
});
afterAll(() => app?.stop());

async function movementOf(id: string) {
  const answer = await app.get(`/api/platforms/${encodeURIComponent(id)}/movement`);
  expect(answer.status).toBe(200);
  return platformMovement.parse(await answer.json());
}

describe('a platform whose vehicles all moved at once', () => {
  it('has the step once, dated to a week and sized, with what it means for the list', async () => {
    const found = await movementOf('stepped');
    expect(found).toMatchObject({ id: 'stepped', name: 'A type', limit_rpm: 170, state: 'learned' });
    expect(found.events).toHaveLength(1);
    const [event] = found.events;
    const truth = start.getTime() + stepDay * DAY_MS;
    expect(Math.abs(Date.parse(event?.at ?? '') - truth)).toBeLessThan(7 * DAY_MS);
    // Ten vehicles of 36 readings a week, 3 rpm of noise each: 0.2 rpm; 2 rpm leave room for the medians of few weeks.
    expect(Math.abs((event?.size_rpm ?? 0) - stepRpm)).toBeLessThan(2);
    expect(event?.sentence).toMatch(
      /^\d+ Jan 2026: \+2\d rpm at once on (9|10) vehicles; taken out of each vehicle$/,
    );
    expect(found.sentence).toMatch(/the step of \+2\d rpm on \d+ Jan 2026 is taken out of every vehicle/);
  });

  it('has every week from Monday on, with its vehicles and its error', async () => {
    const { weeks, learned_from, vehicles, as_of } = await movementOf('stepped');
    expect(weeks.length).toBeGreaterThanOrEqual(17);
    for (const { week, vehicles: n, error_rpm } of weeks) {
      expect(new Date(`${week}T00:00:00Z`).getUTCDay()).toBe(1);
      expect(n).toBeLessThanOrEqual(10);
      expect(error_rpm ?? 0).toBeLessThan(1.5);
    }
    const rise = (weeks.at(-1)?.movement_rpm ?? 0) - (weeks[0]?.movement_rpm ?? 0);
    expect(Math.abs(rise - stepRpm)).toBeLessThan(2);
    expect([learned_from, vehicles]).toEqual([10, 9]);
    expect(Date.parse(as_of ?? '')).toBeGreaterThanOrEqual(end.getTime());
  });

  it('tells what load does to slip, of a healthy clutch and of a worn one', async () => {
    const { effects, usual } = await movementOf('stepped');
    // Slip was made as level * load / 50: at 14 rpm 0.28 rpm for each percent, at 39 rpm 0.78; the fit takes both.
    expect(effects?.healthy.load_rpm_per_pct).toBeGreaterThan(0.2);
    expect(effects?.healthy.load_rpm_per_pct).toBeLessThan(0.8);
    expect(effects?.worn.load_rpm_per_pct).toBeGreaterThan(effects?.healthy.load_rpm_per_pct ?? 0);
    expect(Math.abs((usual?.baseline_rpm ?? 0) - 14)).toBeLessThan(2);
  });

  it('has no season that was not measured', async () => {
    expect((await movementOf('stepped')).season).toMatchObject({
      state: 'too_short',
      amplitude_rpm: null,
      error_rpm: null,
      highest_in: null,
    });
  });
});

describe('other platforms', () => {
  it('that did not move say so', async () => {
    const found = await movementOf('quiet/type');
    expect(found).toMatchObject({ state: 'learned', events: [] });
    expect(found.sentence).toMatch(/have moved by .* with no step/);
  });

  it('with too few vehicles say how many are needed', async () => {
    const found = await movementOf('few');
    expect(found).toMatchObject({ state: 'too_few_vehicles', weeks: [], learned_from: 3, needs_vehicles: 8 });
    expect(found.sentence).toMatch(/^With readings of 3 vehicles.*8 are needed/);
  });

  it('whose feeds have no load have no effect of it', async () => {
    const { effects } = await movementOf('few');
    expect([effects?.healthy.load_rpm_per_pct, effects?.worn.load_rpm_per_pct]).toEqual([null, null]);
    expect(effects?.healthy.fluid_rpm_per_c).toEqual(expect.any(Number));
  });

  it('of which nothing was assessed say so', async () => {
    expect(await movementOf('none')).toMatchObject({
      state: 'not_yet',
      as_of: null,
      vehicles: 0,
      effects: null,
      usual: null,
    });
  });

  it('that nobody knows are a problem that names them', async () => {
    for (const id of ['nothing', "x'; --", '%00']) {
      const answer = await app.get(`/api/platforms/${id === '%00' ? id : encodeURIComponent(id)}/movement`);
      expect(answer.status).toBe(id === '%00' ? 400 : 404);
      expect(answer.headers.get('content-type')).toBe('application/problem+json');
    }
    const answer = await app.get('/api/platforms/nothing/movement');
    expect(await answer.json()).toMatchObject({
      code: 'not_found',
      detail: expect.stringContaining("'nothing'"),
    });
  });
});

describe('what is usual on a platform', () => {
  const exposureOf = async (unit: string) =>
    vehicleSeries.parse(await (await app.get(`/api/vehicles/${unit}/series`)).json()).exposure;

  it('stands beside the clutch heat of a vehicle: three times the torque is about three times the heat', async () => {
    const [own, other] = [await exposureOf('S-1'), await exposureOf('S-3')];
    // The other vehicles slip alike and carry 25 %: the median of the nine that are not retired is theirs. One reading
    // in a hundred is a glitch of 400 rpm: 5 of 500, give or take 2.2, move a mean of some 26 rpm by 7 %; three
    // standard deviations of that are allowed.
    const usual = own.platform?.clutch_heat_mj_per_1000km ?? Number.NaN;
    expect(own.platform).toEqual(other.platform);
    expect(own.platform).toMatchObject({ heat_vehicles: 9, hot_vehicles: 9 });
    expect(Math.abs((other.clutch_heat_mj_per_1000km ?? 0) / usual - 1)).toBeLessThan(0.21);
    expect(Math.abs((own.clutch_heat_mj_per_1000km ?? 0) / usual - 3)).toBeLessThan(0.63);
  });

  it('stands beside its share of hot fluid', async () => {
    const { hot_share, hot_from_c, platform } = await exposureOf('S-2');
    expect([hot_share, hot_from_c]).toEqual([1, 100]);
    // Fluid of the others is 85 degC, give or take 5: three standard deviations below 100.
    expect(platform?.hot_share).toBeLessThan(0.01);
  });

  it('is not said where too few vehicles tell, nor without a platform', async () => {
    expect((await exposureOf('F-1')).platform).toMatchObject({
      clutch_heat_mj_per_1000km: null,
      hot_share: null,
      hot_vehicles: 3,
    });
    expect((await exposureOf('Q-1')).platform).toMatchObject({
      clutch_heat_mj_per_1000km: null,
      heat_vehicles: 0,
    });
    expect((await exposureOf('N-1')).platform).toBe(null);
  });
});

it('has a way to the vehicles without a platform', async () => {
  expect(await movementOf('-')).toMatchObject({
    id: null,
    name: 'No platform',
    limit_rpm: 150,
    vehicles: 2,
    learned_from: 2,
    state: 'too_few_vehicles',
  });
});

it('lists every platform in short, those without one last', async () => {
  const all = z.array(platformSummary).parse(await (await app.get('/api/movement')).json());
  expect(all.map(({ id, vehicles, state, events }) => [id, vehicles, state, events.length])).toEqual([
    ['stepped', 9, 'learned', 1],
    ['quiet/type', 9, 'learned', 0],
    ['few', 3, 'too_few_vehicles', 0],
    ['none', 0, 'not_yet', 0],
    [null, 2, 'too_few_vehicles', 0],
  ]);
  const { weeks } = await movementOf('stepped');
  expect(all[0]?.weeks).toEqual(weeks.map(({ week, movement_rpm }) => [week, movement_rpm]));
  expect(all[4]?.weeks).toEqual([]);
});

it('appears in the interface description', async () => {
  const { paths, components } = await (await app.get('/api/openapi.json')).json();
  expect(Object.keys(paths['/api/platforms/{id}/movement'].get.responses)).toEqual(
    expect.arrayContaining(['200', '404']),
  );
  expect(paths['/api/movement'].get.responses).toHaveProperty('200');
  expect(components.schemas.PlatformMovement.required).toEqual(
    expect.arrayContaining(['weeks', 'events', 'season']),
  );
});
