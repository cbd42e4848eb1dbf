import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { outlook, type Ranking, ranking } from '#server/contract/ranking.ts';
import { plainEnd, plainFleet, sendPlainFleet } from '#tests/helpers/send-plain-fleet.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';

let app: TestApp;
let all: Ranking;
beforeAll(async () => {
  app = await startApp({}, plainEnd);
  await sendPlainFleet(app);
  all = await list('');
});
afterAll(() => app?.stop());

async function list(query: string): Promise<Ranking> {
  const answer = await app.get(`/api/ranking${query}`);
  expect(answer.status).toBe(200);
  return ranking.parse(await answer.json());
}

const unitsOf = ({ rows }: Ranking) => rows.map((row) => row.vehicle);
const matching = (test: (row: Ranking['rows'][number]) => boolean) =>
  all.rows.filter(test).map((row) => row.vehicle);

describe('the inspection list', () => {
  it('holds every vehicle in rising rank, the one past its limit first, and says as of when', () => {
    expect(all.total).toBe(plainFleet.length);
    expect(all.rows.map((row) => row.rank)).toEqual(plainFleet.map((_, i) => i + 1));
    expect(unitsOf(all).slice(0, 2)).toEqual(['P-01', 'P-02']);
    expect(all.rows[0]?.grade).toBe('hold');
    expect(all.horizon_km).toBe(5_000);
    const ageMs = Date.parse(all.as_of ?? '') - plainEnd.getTime();
    expect(ageMs).toBeGreaterThanOrEqual(0);
    expect(ageMs).toBeLessThan(120_000);
  });

  it.each([
    ['?depot=north', (row: { depot: string | null }) => row.depot === 'north'],
    ['?platform=q-type', (row: { platform: string | null }) => row.platform === 'q-type'],
    ['?grade=hold,book', (row: { grade: string }) => row.grade === 'hold' || row.grade === 'book'],
    ['?q=p-0', (row: { vehicle: string }) => row.vehicle.startsWith('P-0')],
    [
      '?depot=south&platform=p-type&grade=steady',
      (row: { depot: string | null; platform: string | null; grade: string }) =>
        row.depot === 'south' && row.platform === 'p-type' && row.grade === 'steady',
    ],
  ])("keeps to %s, in the same order and with the whole fleet's ranks", async (query, test) => {
    const part = await list(query);
    expect(unitsOf(part)).toEqual(matching(test));
    expect(part.total).toBe(part.rows.length);
    expect(part.total).toBeGreaterThan(0);
    expect(part.rows).toEqual(all.rows.filter(test));
  });

  it('takes a search for what it says, not for a pattern', async () => {
    for (const q of ['%', '_', '\\', "'"]) expect((await list(`?q=${encodeURIComponent(q)}`)).total).toBe(0);
  });

  it('answers an unknown depot or platform with an empty list', async () => {
    expect(await list('?depot=nowhere')).toMatchObject({ total: 0, rows: [] });
    expect(await list('?platform=nothing')).toMatchObject({ total: 0, rows: [] });
  });

  it.each([
    ['vehicle', (a: Ranking['rows'][number], b: Ranking['rows'][number]) => (a.vehicle < b.vehicle ? -1 : 1)],
    [
      'slip',
      (a: Ranking['rows'][number], b: Ranking['rows'][number]) =>
        (b.reference_slip_rpm ?? -1) - (a.reference_slip_rpm ?? -1),
    ],
    [
      'chance',
      (a: Ranking['rows'][number], b: Ranking['rows'][number]) =>
        (b.chance_within_horizon ?? -1) - (a.chance_within_horizon ?? -1),
    ],
    [
      'distance',
      (a: Ranking['rows'][number], b: Ranking['rows'][number]) =>
        (a.km_to_limit.p50 ?? 1e9) - (b.km_to_limit.p50 ?? 1e9),
    ],
  ] as const)('sorts by %s', async (sort, compare) => {
    const { rows } = await list(`?sort=${sort}`);
    expect(rows).toHaveLength(all.total);
    for (const [i, row] of rows.entries()) {
      const next = rows[i + 1];
      if (next !== undefined) expect(compare(row, next)).toBeLessThanOrEqual(0);
    }
  });

  it('gives the greater drift first when sorted by drift, and those without one last', async () => {
    const drifts = (await list('?sort=drift')).rows.map((row) => row.drift_rpm_per_1000km?.estimate ?? null);
    const known = drifts.filter((one) => one !== null);
    expect(known.length).toBeGreaterThan(2);
    expect(drifts).toEqual([
      ...known.sort((a, b) => b - a),
      ...Array(drifts.length - known.length).fill(null),
    ]);
  });

  it('comes page by page, each vehicle once', async () => {
    const pages = await Promise.all([0, 5, 10, 15, 20].map((offset) => list(`?limit=5&offset=${offset}`)));
    expect(pages.map((page) => page.rows.length)).toEqual([5, 5, 5, 1, 0]);
    expect(pages.flatMap(unitsOf)).toEqual(unitsOf(all));
    expect(pages.every((page) => page.total === all.total)).toBe(true);
  });

  it('gives other chances and another order for another horizon', async () => {
    const chance = ({ rows }: Ranking, unit: string) =>
      rows.find((row) => row.vehicle === unit)?.chance_within_horizon ?? Number.NaN;
    const [near, far] = [await list('?horizon_km=500'), await list('?horizon_km=30000')];
    expect([near.horizon_km, far.horizon_km]).toEqual([500, 30_000]);
    for (const unit of ['P-02', 'P-03', 'Q-01']) {
      expect(chance(near, unit)).toBeLessThan(chance(all, unit));
      expect(chance(all, unit)).toBeLessThan(chance(far, unit));
    }
    // What a planner would avoid falls with each rank, whatever the horizon.
    for (const { rows } of [near, all, far]) {
      const avoided = rows.map((row) => row.expected_cost_avoided ?? Number.NaN);
      expect(avoided).toEqual([...avoided].sort((a, b) => b - a));
      expect(rows.map((row) => row.rank)).toEqual(rows.map((_, i) => i + 1));
    }
  });

  it('pages within another horizon as it lists', async () => {
    const whole = await list('?horizon_km=12000');
    const pages = await Promise.all(
      [0, 6, 12].map((offset) => list(`?horizon_km=12000&limit=6&offset=${offset}`)),
    );
    expect(pages.flatMap((page) => page.rows)).toEqual(whole.rows);
  });

  it('words reasons in miles for who reads miles, and leaves the numbers alone', async () => {
    const miles = await list('?units=imperial');
    const numbers = (rows: Ranking['rows']) => rows.map(({ reasons: _, missing: __, ...rest }) => rest);
    expect(numbers(miles.rows)).toEqual(numbers(all.rows));
    const words = ({ rows }: Ranking) => rows.flatMap((row) => row.reasons).join('\n');
    expect(words(all)).toMatch(/\bkm\b/);
    expect(words(all)).not.toMatch(/\bmi\b/);
    expect(words(miles)).toMatch(/\bmi\b/);
    expect(words(miles)).not.toMatch(/\bkm\b/);
  });

  it.each([
    ['grade=red', 'grade'],
    ['grade=hold,bad', 'grade'],
    ['limit=0', 'limit'],
    ['limit=1001', 'limit'],
    ['offset=-1', 'offset'],
    ['sort=colour', 'sort'],
    ['horizon_km=far', 'horizon_km'],
    ['horizon_km=1', 'horizon_km'],
    ['units=furlongs', 'units'],
    ['q=%00', 'q'],
    ['depot=%00', 'depot'],
    ['platform=%00', 'platform'],
  ])('refuses %s and names the field', async (query, field) => {
    const answer = await app.get(`/api/ranking?${query}`);
    expect(answer.status).toBe(400);
    expect(answer.headers.get('content-type')).toBe('application/problem+json');
    const problem = await answer.json();
    expect(problem).toMatchObject({ code: 'invalid_request', status: 400 });
    expect(problem.errors.map((one: { field: string }) => one.field)).toEqual([field]);
  });

  it('says of a grade that is none what the grades are', async () => {
    const { detail } = await (await app.get('/api/ranking?grade=red')).json();
    expect(detail).toBe("'red' is no grade. Grades are hold, book, watch, steady, unknown.");
  });
});

describe('the outlook', () => {
  const look = async (query: string) =>
    outlook.parse(await (await app.get(`/api/ranking/outlook${query}`)).json());

  it('counts each grade as the list has it', async () => {
    const { counts, as_of } = await look('');
    for (const [grade, n] of Object.entries(counts))
      expect(n).toBe(all.rows.filter((row) => row.grade === grade).length);
    expect(as_of).toBe(all.as_of);
  });

  it('names the vehicles past their limit, and the week in which the others reach it', async () => {
    const { overdue, weeks } = await look('');
    const past = all.rows.filter((row) => row.km_to_limit.p50 === 0).map((row) => row.vehicle);
    expect(overdue.map((one) => one.vehicle).sort()).toEqual(past.sort());
    expect(past).toContain('P-01');
    expect(weeks).toHaveLength(12);
    expect(weeks[0]?.week).toBe('2026-03-02');
    for (const [i, week] of weeks.entries())
      for (const { vehicle } of week.vehicles) {
        const daysLeft = all.rows.find((row) => row.vehicle === vehicle)?.days_to_limit.p50 ?? Number.NaN;
        const monday = (Date.parse(week.week) - plainEnd.getTime()) / 86_400_000;
        expect(daysLeft).toBeGreaterThanOrEqual(i === 0 ? 0 : monday - 0.1);
        expect(daysLeft).toBeLessThanOrEqual(monday + 7.1);
      }
    const named = weeks.flatMap((week) => week.vehicles).length;
    const drifting = all.rows.filter(
      ({ days_to_limit: { p50 } }) => p50 !== null && p50 > 0 && p50 < 80,
    ).length;
    expect(named).toBe(drifting);
  });

  it('sets them against the free bay days of the depots asked for', async () => {
    const bays = async (query: string) => (await look(query)).weeks.at(-1)?.bay_days;
    expect(await bays('')).toBe(15);
    expect(await bays('?depot=north')).toBe(10);
    expect(await bays('?depot=south')).toBe(5);
  });

  it('keeps to depot, platform and search in its counts', async () => {
    const { counts } = await look('?platform=q-type&depot=south');
    const total = Object.values(counts).reduce((sum, n) => sum + n, 0);
    expect(total).toBe(4);
  });

  it('refuses a grade that is none', async () => {
    expect((await app.get('/api/ranking/outlook?grade=red')).status).toBe(400);
  });
});
