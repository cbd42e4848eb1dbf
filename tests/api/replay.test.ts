import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { platforms } from '#db/schema/fleet.ts';
import { ranking } from '#server/contract/ranking.ts';
import { type Replay, replay, replayList, replayRequest } from '#server/contract/replay.ts';
import { usualThresholds } from '#server/contract/settings.ts';
import { gradeDays, gradeOf } from '#server/services/replay/grade-days.ts';
import { makePlan } from '#server/services/replay/make-plan.ts';
import { replayVehicles } from '#server/services/replay/run-replay.ts';
import { toGradeLimits } from '#server/services/settings/read-thresholds.ts';
import { toEngineSettings } from '#server/services/stretches/engine-settings.ts';
import { plainEnd, sendPlainFleet } from '#tests/helpers/send-plain-fleet.ts';
import { type SignedInPerson, signInAs } from '#tests/helpers/sign-in.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';
import { withTestKey } from '#tests/helpers/test-key.ts';

const DAY_MS = 86_400_000;
const dayBefore = (days: number) => new Date(plainEnd.getTime() - days * DAY_MS).toISOString().slice(0, 10);

let app: TestApp;
beforeAll(async () => {
  app = await startApp({}, plainEnd);
  // P-05 has a code of the clutch for one day, and nothing comes of it.
  await sendPlainFleet(app, (readings) => [
    readings.map((one) =>
      one.vehicle === 'P-05' && one.at.startsWith(dayBefore(30)) ? { ...one, codes: ['P0741'] } : one,
    ),
  ]);
  // Q-03 fails with no notice in its slip, 84,500 + 165 km a day.
  await app.post('/api/lives', [
    {
      vehicle: 'Q-03',
      fitted_km: 0,
      source: 'original',
      removed_km: 96_000,
      removed_at: `${dayBefore(17)}T12:00:00Z`,
      ended: 'failed',
      mode: 'lock-up lost',
    },
    { vehicle: 'Q-03', fitted_km: 96_000, fitted_at: `${dayBefore(17)}T12:00:00Z`, source: 'rebuilt' },
  ]);
  await app.post('/api/assess', {});
});
afterAll(() => app?.stop());

const ask = (body: object, query = '') => app.post(`/api/analysis/replay${query}`, body);
const drop = (id: number) =>
  fetch(`${app.url}/api/analysis/replays/${id}`, { method: 'DELETE', headers: withTestKey });
const period = { from: dayBefore(40), to: dayBefore(1), horizon_km: 1_000 };

async function until(id: number, is: (one: Replay) => boolean): Promise<Replay> {
  for (;;) {
    const found = replay.parse(await (await app.get(`/api/analysis/replays/${id}`)).json());
    if (is(found)) return found;
    await new Promise((settle) => setTimeout(settle, 50));
  }
}

describe('a replay', () => {
  let done: Replay;
  beforeAll(async () => {
    const answer = await ask({ ...period, note: 'before the new limits' });
    expect(answer.status).toBe(200);
    done = replay.parse(await answer.json());
  });

  it('finds, misses and asks in vain as the records tell', () => {
    const { result } = done;
    expect(done).toMatchObject({ state: 'done', error: null, progress: { done: 640, of: 640 } });
    const came = new Map(result?.came.map((one) => [one.vehicle, one]));
    // By hand: 13 + (day - 30) * 2.4 rpm is 150 on day 87 of 100; the fleet drives 150 km a day.
    expect(came.get('P-01')).toMatchObject({ what: 'reached_limit' });
    expect(Math.abs(Date.parse(came.get('P-01')?.day ?? '') - Date.parse(dayBefore(13)))).toBeLessThan(
      5 * DAY_MS,
    );
    expect(came.get('P-01')?.list?.notice_km).toBeGreaterThan(0);
    expect(came.get('P-01')?.list?.notice_km).toBeLessThanOrEqual(period.horizon_km);
    expect(came.get('Q-03')).toMatchObject({
      what: 'failed',
      mode: 'lock-up lost',
      odometer_km: 96_000,
      day: dayBefore(17),
      list: null,
    });
    expect(result?.failures).toBe(came.size);
    const [list] = result?.scores ?? [];
    expect(list).toMatchObject({ rule: 'list', missed: 1 });
    expect((list?.needless ?? 0) + (list?.early ?? 0)).toBe(result?.needless.length);
    expect(list?.found).toBe(came.size - 1);
    const needless = result?.needless ?? [];
    // The code keeps it on the list for a month: an inspection for each horizon of 1,000 km, at 170 km a day.
    const coded = needless.filter(({ vehicle }) => vehicle === 'P-05');
    expect(coded[0]).toMatchObject({ grade: 'book', why: 'nothing_came', from: dayBefore(30) });
    expect(coded[0]?.driven_km).toBeCloseTo(29 * 170, -3);
    expect(coded.length).toBeGreaterThan(1);
    for (const [i, { odometer_km, from, why }] of coded.slice(1).entries()) {
      const drivenKm = odometer_km - (coded[i]?.odometer_km ?? 0);
      expect(Math.abs(drivenKm - 1_170)).toBeLessThanOrEqual(170);
      expect([from, why]).toEqual([coded[i]?.to, 'nothing_came']);
    }
    // The others drift, and drove 1,000 km with the inspection due; P-01 was asked for again after that, and found.
    for (const { vehicle, why } of needless)
      if (vehicle !== 'P-05')
        expect(`${vehicle} ${why}`).toMatch(/^(P-01 early|(P-02|P-03|Q-01) (early|nothing_came))$/);
    expect(needless.map(({ why }) => why)).toContain('early');
  });

  it('reckons the money of the list from what it found and asked for', () => {
    const [list] = done.result?.scores ?? [];
    const { road_failure, planned_repair, inspection, lost_day } = toCosts();
    expect(list?.avoided).toBe((list?.found ?? 0) * (road_failure - planned_repair));
    expect(list?.spent).toBe((list?.asked ?? 0) * (inspection + lost_day));
    expect(list?.saved).toBe((list?.avoided ?? 0) - (list?.spent ?? 0));
  });

  it('sets the plain rules to ask about as often, and says so', () => {
    const [list, ...plain] = done.result?.scores ?? [];
    expect(plain.map(({ rule, matched }) => [rule, matched])).toEqual([
      ['slip_level', true],
      ['weekly_rise', true],
    ]);
    for (const { asked, threshold } of plain) {
      expect(Math.abs(asked - (list?.asked ?? 0))).toBeLessThanOrEqual(2);
      expect(threshold).not.toBeNull();
    }
  });

  it('says that the readings were loaded, and counts its weeks', () => {
    expect(done.result?.known).toMatchObject({ late: 0 });
    expect(done.result?.known.loaded).toBeGreaterThan(2_000);
    expect(done.result?.weeks.map(({ day }) => day).at(-1)).toBe(dayBefore(1));
    expect(done.result?.weeks.reduce((sum, { failures }) => sum + failures, 0)).toBe(done.result?.failures);
  });

  it('stands in the list, and its tables are there as CSV', async () => {
    const { replays } = replayList.parse(await (await app.get('/api/analysis/replays')).json());
    const line = replays.find(({ id }) => id === done.id);
    expect(line).toMatchObject({ state: 'done', score: done.result?.scores[0] });
    expect(line?.request.note).toBe('before the new limits');
    // Left out, those in use are written down: they may be others by the time that it is read.
    expect(line?.request.thresholds).toEqual(usualThresholds);
    const came = await (await app.get(`/api/analysis/replays/${done.id}/came.csv`)).text();
    expect(came.split('\r\n').find((one) => one.startsWith('Q-03'))).toBe(
      `Q-03,q-type,north,failed,lock-up lost,${dayBefore(17)},96000,${Math.round(firstSeen(done))},false,,,,,,,,,,`,
    );
    const needless = await app.get(`/api/analysis/replays/${done.id}/needless.csv`);
    expect(await needless.text()).toContain('P-05,p-type,north,');
  });
});

const firstSeen = ({ result }: Replay) =>
  result?.came.find(({ vehicle }) => vehicle === 'Q-03')?.first_seen_km ?? 0;

function toCosts() {
  const { roadFailureCost, plannedRepairCost, inspectionCost } = toEngineSettings(null);
  return {
    road_failure: roadFailureCost,
    planned_repair: plannedRepairCost,
    inspection: inspectionCost,
    lost_day: 0,
  };
}

async function runHere(from: string, to: string, names: string[] = []) {
  const plan = await makePlan({ db: app.db }, replayRequest.parse({ from, to, platforms: names }), null);
  return { plan, vehicles: await replayVehicles(app.db, plan, () => {}) };
}

describe('what was known then', () => {
  it('gives on its last day the list that the program has, grade by grade', async () => {
    const { plan, vehicles } = await runHere(dayBefore(8), dayBefore(1));
    const rows = await app.db.select().from(platforms);
    const costsOf = (name: string | null) => toEngineSettings(rows.find(({ id }) => id === name) ?? null);
    const graded = gradeDays(vehicles, plan.dayEndMs.length, costsOf, toGradeLimits(usualThresholds));
    const list = ranking.parse(await (await app.get('/api/ranking?limit=100')).json());
    const own = Object.fromEntries(vehicles.map(({ unit }, i) => [unit, gradeOf(graded[i]?.at(-1))]));
    expect(own).toEqual(Object.fromEntries(list.rows.map(({ vehicle, grade }) => [vehicle, grade])));
    expect(new Set(Object.values(own)).size).toBeGreaterThan(2);
    const slips = Object.fromEntries(vehicles.map(({ unit, days }) => [unit, days.levelRpm.at(-1)]));
    for (const row of list.rows) expect(slips[row.vehicle]).toBeCloseTo(row.reference_slip_rpm ?? 0, 0);
  });

  it('counts a late reading from when it arrived, and history from its moment', async () => {
    const lateFrom = new Date(plainEnd.getTime() - 14 * DAY_MS);
    const lateTo = new Date(plainEnd.getTime() - 10 * DAY_MS);
    const arrived = new Date(plainEnd.getTime() - 5 * DAY_MS);
    const keys = await app.client`select key from vehicles where unit = 'Q-02'`;
    const key = keys[0]?.key;
    const asStored = await app.client`select at, arrived_at from readings where vehicle = ${key}`;
    const { vehicles: before } = await runHere(dayBefore(16), dayBefore(3), ['q-type']);
    await app.client`update readings set arrived_at =
      case when at >= ${lateFrom} and at < ${lateTo} then ${arrived}::timestamptz end where vehicle = ${key}`;
    const { vehicles: after } = await runHere(dayBefore(16), dayBefore(3), ['q-type']);
    const kmOf = (all: typeof before) => [...(all.find(({ unit }) => unit === 'Q-02')?.days.km ?? [])];
    const isLate = kmOf(before).map((km, i) => km !== kmOf(after)[i]);
    // Days 2 to 5 of the period came late; day 6 is a Sunday without readings, and from day 7 on they come in time.
    expect(isLate).toEqual(Array.from({ length: 14 }, (_, i) => i >= 2 && i <= 6));
    const levels = (all: typeof before) => all.find(({ unit }) => unit === 'Q-02')?.days.levelRpm;
    expect(levels(after)?.[8]).not.toBe(levels(before)?.[8]);
    // What the fleet has in common was learned on day 7, before they came.
    expect(levels(after)?.at(-1)).toBeCloseTo(levels(before)?.at(-1) ?? 0, 1);
    expect(after.find(({ unit }) => unit === 'Q-02')).toMatchObject({ loaded: 0 });
    expect(after.find(({ unit }) => unit === 'Q-02')?.late).toBeGreaterThan(10);
    for (const { at, arrived_at } of asStored)
      await app.client`update readings set arrived_at = ${arrived_at} where vehicle = ${key} and at = ${at}`;
  });

  it('rests on what the intake noted of readings that came over a day late', async () => {
    const [row] = await app.client`
      select count(*) filter (where arrived_at is null)::int as "inTime",
        count(*) filter (where arrived_at >= ${plainEnd} and at < ${new Date(plainEnd.getTime() - DAY_MS)})::int as late
      from readings`;
    // Six a day of sixteen vehicles; the first 99 of 100 days, without Sundays, came late.
    expect(row).toEqual({ inTime: 96, late: 16 * 6 * (100 - 14 - 1) });
  });
});

describe('work that waits', () => {
  const long = { from: dayBefore(99), to: dayBefore(1) };

  it('is cancelled within a second, and the next one is run', async () => {
    const first = replay.parse(await (await ask(long, '?wait=0')).json());
    const second = replay.parse(await (await ask({ ...period, from: dayBefore(5) }, '?wait=0')).json());
    expect(second.state).toBe('waiting');
    await until(first.id, ({ state, progress }) => state === 'running' && progress.of > 0);
    const startedMs = performance.now();
    expect((await drop(first.id)).status).toBe(204);
    expect((await until(first.id, () => true)).state).toBe('cancelled');
    expect(performance.now() - startedMs).toBeLessThan(1_000);
    const ended = await until(second.id, ({ state }) => state !== 'waiting' && state !== 'running');
    expect(ended).toMatchObject({ state: 'done', error: null });
    expect((await drop(first.id)).status).toBe(204);
    expect((await app.get(`/api/analysis/replays/${first.id}`)).status).toBe(404);
  });

  it('is begun again where its program died, and left alone where that lives', async () => {
    const request = replayRequest.parse({ ...period, from: dayBefore(3) });
    const insert = (silentS: number, attempts: number) => app.client`
      insert into replays (asked_at, asker, asked_by, request, state, started_at, attempts, alive_at)
      values (${plainEnd}, 'key:x', 'x', ${JSON.stringify(request)}::text::jsonb, 'running', ${plainEnd}, ${attempts},
        clock_timestamp() - make_interval(secs => ${silentS})) returning id`;
    const [alive] = await insert(0, 1);
    const waiting = replay.parse(await (await ask({ ...period, from: dayBefore(3) }, '?wait=0')).json());
    await new Promise((settle) => setTimeout(settle, 700));
    expect((await until(waiting.id, () => true)).state).toBe('waiting');
    await app.client`update replays set alive_at = clock_timestamp() - interval '61 seconds' where id = ${alive?.id}`;
    await drop(waiting.id);
    // Cancelling has the desk look.
    expect((await until(Number(alive?.id), ({ state }) => state === 'done')).result).not.toBeNull();
    // Its program died twice: begun a third time, it would end that one too.
    const [deadly] = await insert(61, 2);
    const next = replay.parse(await (await ask({ ...period, from: dayBefore(3) }, '?wait=0')).json());
    const failed = await until(Number(deadly?.id), ({ state }) => state !== 'running');
    expect(failed).toMatchObject({ state: 'failed', result: null });
    expect(failed.error).toMatch(/The program ended twice while it was run, .* take fewer days or vehicles/);
    expect((await until(next.id, ({ state }) => state === 'done')).error).toBeNull();
  });
});

describe('whose replay it is', () => {
  it('shows people of a depot their own vehicles and replays, and those of all depots every one', async () => {
    const north = await signInAs(app, 'analyst', { depots: ['north'] });
    const south = await signInAs(app, 'planner', { depots: ['south'] });
    const fleet = await signInAs(app, 'analyst');
    const as = ({ headers }: SignedInPerson, path: string, init: RequestInit = {}) =>
      fetch(`${app.url}/api/analysis/${path}`, { headers, ...init });
    const body = JSON.stringify({ ...period, from: dayBefore(4) });
    const answer = await as(north, 'replay', { method: 'POST', body });
    const own = replay.parse(await answer.json());
    expect(own.result?.vehicles).toBe(8);
    expect(own.result?.notes.at(-1)).toContain('Only part of the fleet');
    const status = async (who: SignedInPerson, init: RequestInit = {}) =>
      (await as(who, `replays/${own.id}`, init)).status;
    expect([await status(north), await status(south), await status(fleet)]).toEqual([200, 404, 200]);
    const listed = replayList.parse(await (await as(south, 'replays')).json());
    expect(listed.replays).toEqual([]);
    const gone = { method: 'DELETE' };
    expect([await status(fleet, gone), await status(south, gone)]).toEqual([403, 404]);
    expect(await status(north, gone)).toBe(204);
  });
});

it.each([
  [{ from: '2030-01-01', to: '2030-01-02' }, 'from', 'lies in the future'],
  [{ from: '2020-01-01', to: '2020-01-31' }, 'from', 'Their readings begin on'],
  [{ ...period, platforms: ['none'] }, 'platforms', 'known are p-type, q-type'],
  [{ ...period, depots: ['west'] }, 'depots', 'known are north, south'],
  [{ ...period, limits_rpm: { none: 100 } }, 'limits_rpm', "No platform 'none'"],
  [{ from: period.to, to: period.from }, 'to', 'is before from'],
])('refuses %j with what to do', async (body, field, words) => {
  const answer = await ask(body);
  expect(answer.status).toBe(400);
  const problem = await answer.json();
  expect(problem.errors[0].field).toBe(field);
  expect(`${problem.detail} ${problem.errors[0].message}`).toContain(words);
});
