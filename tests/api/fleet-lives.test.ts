import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { LifeInput } from '#server/contract/fleet.ts';
import { type FleetLivesReply, fleetLivesReply, type LifeFit } from '#server/contract/lives.ts';
import type { ReadingInput } from '#server/contract/readings.ts';
import { makeLifeWeeksOf } from '#server/services/lives/life-weeks.ts';
import { leftOutReasons } from '#server/services/lives/observe-lives.ts';
import { toNdjson } from '#tests/helpers/make-reading.ts';
import { signInAs } from '#tests/helpers/sign-in.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';

/**
 * A made fleet: each vehicle is read on days 0, 30, … 180 and drives 300 km a day, 54,000 km in all. Figures below are
 * thousands of km. Platform a: A-i is first read at 20 + 2i; A-1 to A-6 fail at 50 + 5i and go on with a new converter.
 */
const start = Date.parse('2026-01-01T00:00:00Z');
const DAY_MS = 86_400_000;
const now = new Date('2026-07-01T00:00:00Z');
const firstKm: Record<string, number> = Object.fromEntries([
  ...[1, 2, 3, 4, 5, 6, 7, 8].map((i) => [`A-${i}`, 20_000 + 2_000 * i]),
  ...['B-1', 'B-2', 'B-3', 'B-4', 'C-1', 'C-2'].map((unit) => [unit, 30_000]),
]);

const readings = Object.entries(firstKm).flatMap(([unit, km]) =>
  [0, 30, 60, 90, 120, 150, 180].map(
    (day): ReadingInput => ({
      vehicle: unit,
      at: new Date(start + day * DAY_MS).toISOString(),
      odometer_km: km + 300 * day,
      slip_rpm: unit === 'B-1' && day === 60 ? 100 : 10,
      duty_pct: unit === 'B-1' && day === 30 ? 60 : 90,
      fluid_c: unit === 'B-1' && day === 30 ? 107 : unit.startsWith('A') ? 70 + Number(unit.slice(2)) : 92,
      load_pct: 50,
      ...(unit.startsWith('B') ? { torque_pct: 50, speed_kmh: 80 } : {}),
    }),
  ),
);

const replaced = (vehicle: string, km: number, mode: string, supplier: string, fittedKm = 0): LifeInput[] => [
  { vehicle, fitted_km: fittedKm, source: 'original', removed_km: km, ended: 'failed', mode },
  { vehicle, fitted_km: km, source: 'rebuilt', supplier },
];
const lives: LifeInput[] = [
  {
    vehicle: 'A-1',
    fitted_km: 0,
    source: 'original',
    removed_km: 10_000,
    ended: 'failed',
    mode: 'seal leaking',
  },
  ...replaced('A-1', 55_000, 'lining worn', 'Yard One', 10_000),
  ...[2, 3, 4, 5, 6].flatMap((i) =>
    replaced(
      `A-${i}`,
      50_000 + 5_000 * i,
      i < 5 ? 'lining worn' : 'seal leaking',
      i < 4 ? 'Yard One' : '=Yard',
    ),
  ),
  { vehicle: 'A-7', fitted_km: 0, source: 'original' },
  { vehicle: 'A-8', fitted_km: 0, source: 'original' },
  ...replaced('B-1', 50_000, 'lining worn', 'Yard One'),
  ...replaced('B-2', 70_000, 'seal leaking', 'Yard One'),
  { vehicle: 'B-3', fitted_km: 0, source: 'original' },
  {
    vehicle: 'B-4',
    fitted_km: 0,
    source: 'original',
    removed_km: 60_000,
    ended: 'preventive',
    mode: 'lining worn',
  },
  { vehicle: 'B-4', fitted_km: 60_000, source: 'new' },
  { vehicle: 'C-1', fitted_km: 0, source: 'original' },
];

let app: TestApp;
beforeAll(async () => {
  app = await startApp({}, now);
  const post = async (path: string, body: unknown, type = 'application/json') => {
    const answer = await app.post(path, body, { 'content-type': type });
    expect([path, answer.status]).toEqual([path, 200]);
  };
  await post('/api/depots', [
    { id: 'north', name: 'North' },
    { id: 'south', name: 'South' },
  ]);
  const platform = (id: string) => ({ id, name: `Type ${id}`, life_km: 300_000, reference_torque_nm: 800 });
  await post('/api/platforms', ['a', 'b', 'c'].map(platform));
  await post(
    '/api/vehicles',
    Object.keys(firstKm).map((id) => ({
      id,
      platform: id.slice(0, 1).toLowerCase(),
      depot: id.startsWith('A') ? 'north' : 'south',
    })),
  );
  await post('/api/lives', lives);
  await post('/api/readings', toNdjson(readings), 'application/x-ndjson');
  await post('/api/assess', {});
});
afterAll(() => app.stop());

/** As the set-up key, or as whom the headers say. */
const ask = (path: string, headers?: Record<string, string>) =>
  headers === undefined ? app.get(path) : fetch(`${app.url}${path}`, { headers });

async function read(query = '', headers?: Record<string, string>): Promise<FleetLivesReply> {
  const answer = await ask(`/api/analysis/lives${query}`, headers);
  expect(answer.status).toBe(200);
  return fleetLivesReply.parse(await answer.json());
}

async function readTable(query = ''): Promise<Record<string, string>[]> {
  const answer = await app.get(`/api/analysis/lives.csv${query}`);
  expect(answer.status).toBe(200);
  const [header = '', ...rows] = (await answer.text()).trim().split('\r\n');
  const names = header.split(',');
  return rows.map((row) => Object.fromEntries(row.split(',').map((cell, i) => [names[i], cell])));
}

describe("statistics on the fleet's own lives", () => {
  // 8 of platform a with a failure each at 45 and 60 to 80, at risk 8, 7, 6, 5, 4, 3: survival 7/8, 6/8, … 2/8.
  it('watches lives from the first reading of their vehicle', async () => {
    const reply = await read('?platform=a');
    const [group] = reply.groups;
    expect(group?.kaplan_meier.filter(({ events }) => events > 0)).toMatchObject(
      [45_000, 60_000, 65_000, 70_000, 75_000, 80_000].map((x, i) => ({
        x: expect.closeTo(x, 0),
        at_risk: 8 - i,
        events: 1,
        survival: expect.closeTo((7 - i) / 8, 9),
      })),
    );
    expect(group?.median?.estimate).toBeCloseTo(70_000, 0);
    expect(reply).toMatchObject({
      n: 14,
      events: 6,
      as_of: expect.stringMatching(/^2026-07-01/),
      grouped_by: null,
      left_out: [{ reason: leftOutReasons.endedBefore, lives: 1 }],
    });
    expect(group?.late_entries).toBe(8);
  });

  it('watches them from their fitting where records are complete, and counts preventive ends where asked', async () => {
    const complete = await read('?platform=a&records=fitting');
    expect(complete).toMatchObject({ n: 15, events: 7, left_out: [] });
    expect(complete.groups[0]?.late_entries).toBe(0);
    const all = await read();
    expect(all).toMatchObject({ n: 22, events: 8 });
    expect(all.left_out).toContainEqual({ reason: leftOutReasons.notRegistered, lives: 1 });
    expect(await read('?count=failed_and_preventive')).toMatchObject({ n: 22, events: 9 });
  });

  // On day 60 A-i stands at 38 + 2i: A-1's converter has run 30 then. By the end of day 119 it stands at 58 + 2i: only
  // A-1 (55) has failed, A-2 (60) is just about to.
  it('moves entry and exit to where vehicles stood at the borders of a period', async () => {
    const rows = await readTable('?platform=a&from=2026-03-02&to=2026-04-29');
    const spans = rows.map((row) => [
      row.vehicle,
      row.life,
      Number(row.entry_km),
      Number(row.exit_km),
      row.event,
    ]);
    const near = (km: number) => expect.closeTo(km, -3);
    expect(spans.slice(0, 4)).toEqual([
      ['A-1', '2', near(30_000), near(45_000), 'true'],
      ['A-1', '3', 0, near(3_000), 'false'],
      ['A-2', '1', near(42_000), near(60_000), 'false'],
      ['A-3', '1', near(44_000), near(62_000), 'false'],
    ]);
    const reply = await read('?platform=a&from=2026-03-02&to=2026-04-29');
    expect(reply).toMatchObject({ n: 9, events: 1 });
    expect(reply.left_out.map((one) => one.lives)).toEqual([1, 5]);
  });

  it('groups by platform, depot, source and supplier, those without at the end', async () => {
    const names = async (by: string) =>
      (await read(`?group_by=${by}`)).groups.map(({ name, n, events }) => [name, n, events]);
    expect(await names('platform')).toEqual([
      ['a', 14, 6],
      ['b', 7, 2],
      ['c', 1, 0],
    ]);
    expect(await names('depot')).toEqual([
      ['north', 14, 6],
      ['south', 8, 2],
    ]);
    expect(await names('supplier')).toEqual([
      ['=Yard', 3, 0],
      ['Yard One', 5, 0],
      ['supplier not named', 14, 8],
    ]);
    expect((await names('source')).map(([name]) => name)).toEqual(['new', 'original', 'rebuilt']);
    expect(await read('?source=new,rebuilt')).toMatchObject({ n: 9, events: 0 });
  });

  it('groups by mode with all lives in each, and compares nothing then', async () => {
    const reply = await read('?group_by=mode&platform=a');
    expect(reply.groups.map(({ name, n, events }) => [name, n, events])).toEqual([
      ['lining worn', 14, 4],
      ['seal leaking', 14, 2],
    ]);
    expect(reply).toMatchObject({ n: 14, events: 6, logrank: null });
    expect(reply.declined.logrank?.reason).toContain('same lives');
  });

  it('groups by thirds of an exposure, and says from where to where they go', async () => {
    const reply = await read('?group_by=fluid_c&platform=a');
    expect(reply.thirds?.map(({ name, from, to }) => [name, Math.round(from), Math.round(to)])).toEqual([
      ['low third', 71, 73],
      ['middle third', 74, 75],
      ['high third', 76, 78],
    ]);
    expect(reply.groups.map(({ name, n }) => [name, n])).toEqual([
      ['low third', 6],
      ['middle third', 4],
      ['high third', 4],
    ]);
    expect(reply.logrank?.df).toBe(2);
  });

  it('says what could be chosen', async () => {
    expect((await read()).choices).toEqual({
      platforms: ['a', 'b', 'c'].map((id) => ({ id, name: `Type ${id}` })),
      depots: [
        { id: 'north', name: 'North' },
        { id: 'south', name: 'South' },
      ],
      suppliers: ['=Yard', 'Yard One'],
      modes: ['lining worn', 'seal leaking'],
      first_day: '2026-01-01',
      last_day: '2026-06-30',
    });
  });

  it('answers without statistics where no life is left', async () => {
    const reply = await read('?to=2025-12-01');
    expect(reply).toMatchObject({ n: 0, events: 0, groups: [], logrank: null, cox: null });
    expect(reply.left_out[0]?.lives).toBe(23);
  });

  it.each([
    ['platform=a,z', 'platform', "'z'"],
    ['depot=east', 'depot', "'east'"],
    ['group_by=colour', 'group_by', ''],
    ['source=stolen', 'source', ''],
    ['from=2026-05-01&to=2026-04-01', 'to', '2026-04-01'],
    ['from=yesterday', 'from', ''],
    ['confidence=1', 'confidence', ''],
  ])('refuses %s and names what is wrong', async (query, field, said) => {
    for (const path of ['lives', 'lives.csv']) {
      const answer = await app.get(`/api/analysis/${path}?${query}`);
      expect(answer.status).toBe(400);
      const problem = await answer.json();
      expect(problem.errors[0].field).toMatch(new RegExp(`^${field}`));
      expect(problem.detail).toContain(said);
    }
  });
});

describe('lives as CSV', () => {
  it('has a row for each life, with formulas of spreadsheets made harmless', async () => {
    const rows = await readTable();
    expect(rows).toHaveLength(22);
    expect(rows.find(({ vehicle, life }) => vehicle === 'A-1' && life === '2')).toMatchObject({
      platform: 'a',
      depot: 'north',
      source: 'original',
      fitted_km: '10000',
      entry_km: '12000',
      exit_km: '45000',
      event: 'true',
      ended: 'failed',
      mode: 'lining worn',
    });
    expect(rows.find(({ vehicle, life }) => vehicle === 'A-5' && life === '2')?.supplier).toBe("'=Yard");
  });

  it('gives the same statistics when its lives are sent', async () => {
    const query = '?platform=a,b&count=failed_and_preventive';
    const lives = (await readTable(query)).map(({ entry_km: entry, exit_km: exit, event, mode }) => ({
      entry: Number(entry),
      exit: Number(exit),
      event: event === 'true',
      ...(event === 'true' ? { mode } : {}),
    }));
    const sent = await (await app.post('/api/analysis/lives', { lives })).json();
    const { groups, n, events } = await read(query);
    expect([sent.n, sent.events]).toEqual([n, events]);
    expect(groups).toHaveLength(1);
    expect(groups).toEqual(sent.groups);
  });

  // Others of platform b stood at 92 in the same weeks, so what is compared is what was read.
  // B-1's first converter was read on days 0, 30 and 60; that of day 60 slips by 100 rpm, so it does not count. Heat: 0.5 *
  // 800 N m * 10 rpm * 2 pi / 60 = 0.41888 kW at 80 km/h, 0.41888 * 3600 / 80 = 18.85 MJ for 1,000 km.
  it('tells how each converter was used while its slip was quiet', async () => {
    const rows = await readTable('?platform=b');
    const own = rows.find(({ vehicle, life }) => vehicle === 'B-1' && life === '1');
    expect(Number(own?.fluid_c)).toBeCloseTo((92 + 107) / 2, 3);
    expect(Number(own?.hot_pct)).toBeCloseTo(50, 3);
    expect(Number(own?.load_pct)).toBeCloseTo(50, 3);
    expect(Number(own?.partial_lockup_pct)).toBeCloseTo(50, 3);
    expect(Number(own?.heat_mj_per_1000km)).toBeCloseTo(18.85, 2);
  });

  it('leaves exposures out of the regression that too few lives have, and says so', async () => {
    const reply = await read();
    expect(reply.notes.join()).toContain('goes without clutch heat: 7 of 22 lives');
    const names = [...(reply.cox?.terms.map(({ name }) => name) ?? []), reply.declined.cox?.reason];
    expect(names).not.toContain('heat_mj_per_1000km');
  });
});

describe('the life that the list reckons with', () => {
  it('is fitted from own failures, else borrowed, and said', async () => {
    const { fits, groups } = await read('?group_by=platform');
    expect(
      fits.map(({ platform, basis, failures, fleet_failures }) => [
        platform,
        basis,
        failures,
        fleet_failures,
      ]),
    ).toEqual([
      ['a', 'own', 6, 8],
      ['b', 'shared_shape', 2, 8],
      ['c', 'fleet', 0, 8],
    ]);
    expect(fits[0]?.shape).toBeCloseTo(groups[0]?.weibull?.shape ?? 0, 9);
    expect(fits[0]?.b10_km.low).toBeCloseTo(groups[0]?.weibull?.b10.low ?? 0, 3);
    expect(fits[1]?.says).toMatch(
      /^fitted from 2 failures of its own and the shape of the fleet's 8 on 1 Jul 2026$/,
    );
    expect(fits[2]?.says).toMatch(/^borrowed from 8 failures elsewhere/);
    expect((await read('?platform=b')).fits.map(({ platform }) => platform)).toEqual(['b']);
  });

  // 12 % of failures give no notice: 0.12 * (1 - exp((84 / scale)^shape - (89 / scale)^shape)) within 5,000 km.
  it('makes the chance of a failure without notice', async () => {
    const fit = (await read()).fits.find(({ platform }) => platform === 'c');
    const [row] = await app.client`select (facts->>'suddenChance')::float8 as chance from assessments
      join vehicles on key = vehicle where unit = 'C-1'`;
    const hazard = (km: number) => (km / (fit?.scale_km ?? 0)) ** (fit?.shape ?? 0);
    const chance = 0.12 * (1 - Math.exp(hazard(84_000) - hazard(89_000)));
    expect(chance).toBeGreaterThan(0.001);
    expect(row?.chance).toBeCloseTo(chance, 9);
  });

  it('is told on a vehicle, with what it rests on', async () => {
    const { without_notice: told } = await (await app.get('/api/vehicles/C-1')).json();
    expect(told).toMatch(
      /^Failure without notice within 5,000 km: 1\.[67] % \(12 % of failures are assumed to give none\)\. Life of the platform: borrowed from 8 failures elsewhere in the fleet on 1 Jul 2026$/,
    );
  });

  it('counts before the expected life, whose change moves nothing then', async () => {
    const body = { platform: { id: 'a', life_km: 40_000 } };
    const ask = async () => (await (await app.post('/api/settings/preview', body)).json()).preview;
    await expect.poll(ask, { timeout: 30_000 }).toMatchObject({ vehicles: 14, regraded: 0, reranked: 0 });
  });

  it('is stored once, and anew only where it has changed', async () => {
    const count = async () => (await app.client`select count(*) as n from life_fits`)[0]?.n;
    expect(await count()).toBe(3);
    await app.post('/api/assess', {});
    expect(await count()).toBe(3);
    const changed = await app.post('/api/platforms', { id: 'a', name: 'Type a', life_km: 90_000 });
    expect(changed.status).toBe(200);
    await app.post('/api/assess', {});
    expect(await count()).toBe(3);
  });
});

describe('whose lives', () => {
  it('are those of the depots that one works for', async () => {
    const { headers } = await signInAs(app, 'analyst', { depots: ['north'] });
    const reply = await read('?group_by=platform', headers);
    expect(reply.groups.map(({ name }) => name)).toEqual(['a']);
    expect(reply.choices.depots.map(({ id }) => id)).toEqual(['north']);
    expect(reply.choices.modes).toEqual(['lining worn', 'seal leaking']);
    // What the list reckons with rests on all depots: how many failed there is not told.
    expect(
      reply.fits.map(({ platform, failures, fleet_failures }) => [platform, failures, fleet_failures]),
    ).toEqual(['a', 'b', 'c'].map((platform) => [platform, null, null]));
    expect(JSON.stringify(reply.fits)).not.toMatch(/[0-9] failure|fleet's [0-9]/);
    const vehicle = await (await ask('/api/vehicles/A-1', headers)).json();
    expect(vehicle.without_notice).toMatch(
      /Life of the platform: fitted from failures of its own on .* at all depots/,
    );
    const refused = await ask('/api/analysis/lives?depot=south', headers);
    expect(refused.status).toBe(403);
    expect((await refused.json()).detail).toContain('South');
    const text = await (await ask('/api/analysis/lives.csv', headers)).text();
    expect(text).not.toContain('B-1');
  });
});

// Changes the fleet, as all that follows.
describe('exposures after a change', () => {
  const fluidOf = async (unit: string, life = '1') =>
    Number(
      (await readTable('?platform=b')).find((row) => row.vehicle === unit && row.life === life)?.fluid_c,
    );

  // B-3 was read at 92 on seven days, as others of its platform; an hour after that of day 90 it is read hotter.
  it('are those of the readings that came last', async () => {
    expect(await fluidOf('B-3')).toBeCloseTo(92, 3);
    const reading: ReadingInput = {
      vehicle: 'B-3',
      at: new Date(start + 90 * DAY_MS + 3_600_000).toISOString(),
      odometer_km: 57_010,
      slip_rpm: 10,
      duty_pct: 90,
      fluid_c: 110,
      load_pct: 50,
    };
    expect((await app.post('/api/readings', [reading])).status).toBe(200);
    expect((await app.post('/api/assess', {})).status).toBe(200);
    expect(await fluidOf('B-3')).toBeGreaterThan(92.2);
  });

  it('are those of the lives as they stand now', async () => {
    const before = await fluidOf('B-3');
    const changed = replaced('B-3', 57_500, 'lining worn', 'Yard One');
    expect((await app.post('/api/lives', changed)).status).toBe(200);
    expect((await app.post('/api/assess', {})).status).toBe(200);
    expect(await fluidOf('B-3', '1')).toBeGreaterThan(before + 0.2);
    expect(await fluidOf('B-3', '2')).toBeCloseTo(92, 0);
  });

  it('are not kept where stretches change while they are made', async () => {
    const [own] = await app.client`select key from vehicles where unit = 'B-3'`;
    const key = Number(own?.key);
    const { made } = await app.client.begin(async (change) => {
      await change`update life_weeks set version = version + 1, weeks = null where vehicle = ${key}`;
      const made = makeLifeWeeksOf(app, [key]);
      await expect
        .poll(
          // Within a transaction the activity of others is seen once and not again.
          async () =>
            (
              await app.client`select from pg_stat_activity where datname = current_database() and wait_event_type = 'Lock'`
            ).length,
          { timeout: 30_000 },
        )
        .toBeGreaterThan(0);
      return { made };
    });
    await made;
    expect(await app.client`select weeks from life_weeks where vehicle = ${key}`).toEqual([{ weeks: null }]);
    expect(await fluidOf('B-3')).toBeGreaterThan(92.2);
  });

  // C-1 and C-2 were read at 92 on the same days. On day 152 C-1 is read once more, at 110. C-3 stands
  // still from day 100 to day 120: its one stretch ended on that day.
  it('are those of the period that is looked at, whatever came before and after it', async () => {
    const readingOf = (vehicle: string, day: number, km: number, fluidC: number): ReadingInput => ({
      vehicle,
      at: new Date(start + day * DAY_MS + 3_600_000).toISOString(),
      odometer_km: km,
      slip_rpm: 10,
      duty_pct: 90,
      fluid_c: fluidC,
      load_pct: 50,
    });
    const body = [
      readingOf('C-1', 152, 75_600, 110),
      ...[100, 120].map((day) => readingOf('C-3', day, 30_000 + day, 92)),
    ];
    expect((await app.post('/api/vehicles', { id: 'C-3', platform: 'c', depot: 'south' })).status).toBe(200);
    const life = { vehicle: 'C-3', fitted_km: 0, source: 'original' };
    expect((await app.post('/api/lives', life)).status).toBe(200);
    expect((await app.post('/api/readings', body)).status).toBe(200);
    expect((await app.post('/api/assess', {})).status).toBe(200);
    const fluidIn = async (query: string) =>
      Object.fromEntries((await readTable(`?platform=c${query}`)).map((row) => [row.vehicle, row.fluid_c]));
    const day = (n: number) => new Date(start + n * DAY_MS).toISOString().slice(0, 10);
    expect(Number((await fluidIn(''))['C-1'])).toBeGreaterThan(93);
    const before = await fluidIn(`&to=${day(149)}`);
    expect(Number(before['C-1'])).toBeCloseTo(92, 3);
    expect(Number((await fluidIn(`&from=${day(100)}&to=${day(149)}`))['C-1'])).toBeCloseTo(92, 3);
    expect(Number((await fluidIn(`&from=${day(140)}`))['C-1'])).toBeGreaterThan(96);
    expect((await fluidIn(`&to=${day(115)}`))['C-3']).toBe('');
    expect(before['C-3']).not.toBe('');
    const { notes, thirds } = await read(`?platform=c&group_by=fluid_c&to=${day(149)}`);
    expect(thirds).not.toBeNull();
    expect(notes.join()).toContain('whole weeks within the period, up to 27 May 2026: nothing that came');
  });

  // At a limit of 1,500 rpm the 100 rpm of B-1 on day 60 are quiet too: 92, 107 and 92.
  it('are those of the limit of now, before anything is assessed again', async () => {
    expect(await fluidOf('B-1')).toBeCloseTo(99.5, 0);
    const platform = {
      id: 'b',
      name: 'Type b',
      life_km: 300_000,
      reference_torque_nm: 800,
      limit_rpm: 1_500,
    };
    expect((await app.post('/api/platforms', platform)).status).toBe(200);
    expect(await fluidOf('B-1')).toBeCloseTo(97, 0);
  });
});

describe('when the records are corrected', () => {
  it('goes back to the expected life where too few failures are left, and to none where none is expected', async () => {
    const preventive = lives
      .filter(({ vehicle, ended }) => ended === 'failed' && vehicle !== 'A-6')
      .map((life) => ({ ...life, ended: 'preventive' }));
    expect((await app.post('/api/lives', preventive)).status).toBe(200);
    expect((await app.post('/api/platforms', { id: 'c', name: 'Type c', life_km: null })).status).toBe(200);
    expect((await app.post('/api/assess', {})).status).toBe(200);
    const { fits } = await (await app.get('/api/analysis/life-fits')).json();
    expect(fits.map(({ platform, basis }: LifeFit) => [platform, basis])).toEqual([
      ['a', 'expected'],
      ['b', 'expected'],
    ]);
    const [row] = await app.client`select (facts->>'suddenChance')::float8 as chance from assessments
      join vehicles on key = vehicle where unit = 'C-1'`;
    expect(row?.chance).toBe(0);
    expect((await (await app.get('/api/vehicles/C-1')).json()).without_notice).toBeNull();
  });
});
