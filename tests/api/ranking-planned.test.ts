import { parse } from 'csv-parse/sync';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { z } from 'zod';
import { uncoveredHold } from '#server/contract/bookings.ts';
import {
  explanation,
  outlook,
  type Ranking,
  type RankingRow,
  ranking,
  rankingUnits,
} from '#server/contract/ranking.ts';
import { signInAs } from '#tests/helpers/sign-in.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';
import { storeMadeFleet } from '#tests/helpers/store-made-fleet.ts';

const now = new Date('2026-03-04T08:30:00Z');
const count = 300;
let app: TestApp;
let all: Ranking;

beforeAll(async () => {
  app = await startApp({}, now);
  await storeMadeFleet(app.running.context, count);
  all = await list('');
});
afterAll(() => app?.stop());

/** As the set-up key unless the headers are of somebody else. */
const ask = (path: string, headers?: Record<string, string>) =>
  headers === undefined ? app.get(path) : fetch(app.url + path, { headers });

async function list(query: string, headers?: Record<string, string>): Promise<Ranking> {
  const answer = await ask(`/api/ranking?limit=1000${query}`, headers);
  expect(answer.status).toBe(200);
  return ranking.parse(await answer.json());
}
const matching = (test: (row: RankingRow) => boolean) => all.rows.filter(test);

describe('the list with what is planned', () => {
  it('shows the open booking of each vehicle, and where it stood a week ago', () => {
    const booked = matching((row) => row.booking !== null);
    expect(new Set(booked.map((row) => row.booking?.state))).toEqual(new Set(['booked', 'put_off']));
    expect(booked.some((row) => row.booking?.past)).toBe(true);
    expect(booked.some((row) => row.booking?.state === 'put_off' && row.booking.day === null)).toBe(true);
    const ahead = booked.find((row) => row.booking?.day != null && !row.booking.past);
    expect(ahead?.booking).toMatchObject({
      from: '09:00',
      bay: expect.any(Number),
      depot: expect.any(String),
    });
    expect(all.rows.every((row) => row.week_ago !== null)).toBe(true);
  });

  const clear = 0.1;
  const urgency = { hold: 3, book: 2, watch: 1, steady: 0, unknown: 0 };
  const drifts = (row: RankingRow) =>
    row.grade === row.week_ago?.grade && ['book', 'watch'].includes(row.grade);
  const up = (row: RankingRow) =>
    (row.chance_within_horizon ?? 0) - (row.week_ago?.chance_within_horizon ?? 0);
  const gain = (row: RankingRow) => urgency[row.grade] - urgency[row.week_ago?.grade ?? row.grade];

  it.each<[string, (row: RankingRow) => boolean]>([
    ['booking=none', (row) => row.booking === null],
    ['booking=any', (row) => row.booking !== null],
    ['booking=open', (row) => row.booking?.state === 'booked' && !row.booking.past],
    ['booking=put_off', (row) => row.booking?.state === 'put_off'],
    ['booking=past', (row) => row.booking?.past === true],
    ['changed=any', (row) => row.grade !== row.week_ago?.grade],
    ['changed=worse', (row) => gain(row) > 0 || (drifts(row) && up(row) >= clear)],
    [
      'changed=better',
      (row) => (gain(row) < 0 && row.grade !== 'unknown') || (drifts(row) && up(row) <= -clear),
    ],
    ['lacks=depot', (row) => row.depot === null],
    ['lacks=platform', (row) => row.platform === null],
    ['lacks=both', (row) => row.depot === null && row.platform === null],
    ['grade=hold,book&booking=none', (row) => urgency[row.grade] > 1 && row.booking === null],
    [
      'changed=worse&booking=none&depot=depot-3',
      (row) =>
        (gain(row) > 0 || (drifts(row) && up(row) >= clear)) &&
        row.booking === null &&
        row.depot === 'depot-3',
    ],
  ])('keeps to %s, and so do its counts, its units and its outlook', async (query, test) => {
    const wanted = matching(test);
    expect(wanted.length).toBeGreaterThan(0);
    expect(wanted.length).toBeLessThan(count);
    const part = await list(`&${query}`);
    expect(part.rows).toEqual(wanted);
    expect(part.total).toBe(wanted.length);
    const units = rankingUnits.parse(await (await app.get(`/api/ranking/units?${query}`)).json());
    expect(units).toEqual({ total: wanted.length, vehicles: wanted.map((row) => row.vehicle) });
    const { counts } = outlook.parse(
      await (await app.get(`/api/ranking/outlook?${query.replace(/grade=[^&]+&?/, '')}`)).json(),
    );
    const counted = matching(
      (row) => test({ ...row }) || (query.startsWith('grade') && row.booking === null),
    );
    for (const [grade, n] of Object.entries(counts))
      expect(n, grade).toBe(counted.filter((row) => row.grade === grade).length);
  });

  it('is empty where a filter contradicts itself', async () => {
    expect((await list('&lacks=depot&depot=depot-1')).total).toBe(0);
  });

  it('keeps a rank that is of the whole fleet within another horizon too', async () => {
    const far = await list('&horizon_km=12000');
    const part = await list('&horizon_km=12000&grade=hold,book&booking=none');
    expect(part.rows).toEqual(
      far.rows.filter((row) => ['hold', 'book'].includes(row.grade) && row.booking === null),
    );
    // Ranks and chances of a week ago are of the usual horizon.
    expect(far.rows.map((row) => row.week_ago?.rank)).toEqual(far.rows.map(() => null));
    expect(far.rows.every((row) => row.week_ago?.chance_within_horizon === null)).toBe(true);
    expect((await list('&horizon_km=5000')).rows).toEqual(all.rows);
    const byUnit = await list('&horizon_km=12000&sort=vehicle');
    expect(byUnit.rows.toSorted((a, b) => a.rank - b.rank)).toEqual(far.rows);
  });

  it('follows a new assessment, a retired vehicle and changed costs within another horizon at once', async () => {
    const read = async () => (await list('&horizon_km=12000')).rows;
    const before = await read();
    const last = before.at(-1)?.vehicle ?? '';
    const [kept] = await app.client`
      select a.vehicle, a.facts, a.as_of from assessments a join vehicles v on v.key = a.vehicle where v.unit = ${last}`;
    await app.client`
      update assessments set as_of = as_of + interval '1 second',
        facts = jsonb_set(facts, '{chances}', '[[100000, 1], [200000, 1]]') || '{"codes": 1}'
      where vehicle = ${kept?.vehicle}`;
    const risen = (await read()).find((row) => row.vehicle === last);
    expect(risen?.rank).toBeLessThan(before.length / 2);
    await app.client`update vehicles set retired = true where unit = ${last}`;
    expect((await read()).map((row) => row.vehicle)).not.toContain(last);
    await app.client`update vehicles set retired = false where unit = ${last}`;
    await app.client`
      update assessments set as_of = ${kept?.as_of}, facts = ${JSON.stringify(kept?.facts)}::text::jsonb
      where vehicle = ${kept?.vehicle}`;
    expect(await read()).toEqual(before);
  });

  it.each([
    ['booking=maybe', 'booking'],
    ['changed=much', 'changed'],
    ['lacks=driver', 'lacks'],
    ['grade=red', 'grade'],
  ])('refuses %s and names the field, wherever the filter is taken', async (query, field) => {
    for (const path of ['', '/outlook', '/units', '.csv']) {
      const answer = await app.get(`/api/ranking${path}?${query}`);
      expect(answer.status, path).toBe(400);
      const { errors } = await answer.json();
      expect(errors.map((one: { field: string }) => one.field)).toEqual([field]);
    }
  });

  it('is whole in its file, in its order, within another horizon too', async () => {
    for (const query of ['', '?horizon_km=12000', '?sort=slip&grade=steady']) {
      const text = await (await app.get(`/api/ranking.csv${query}`)).text();
      const lines = parse(text, { columns: true, bom: true }) as Record<string, string>[];
      const { rows } = await list(query.replace('?', '&'));
      expect(lines.map((line) => [line.rank, line.vehicle])).toEqual(
        rows.map((row) => [String(row.rank), row.vehicle]),
      );
    }
    const empty = await (await app.get('/api/ranking.csv?depot=nowhere')).text();
    expect(empty.trim().split('\r\n')).toEqual([expect.stringMatching(/^rank,vehicle,/)]);
  });

  it('has booking and week ago in its file', async () => {
    const text = await (await app.get('/api/ranking.csv?booking=open')).text();
    const [first] = matching((row) => row.booking?.state === 'booked' && !row.booking.past);
    const [cells] = parse(text, { columns: true, bom: true }) as Record<string, string>[];
    const cell = (name: string) => cells?.[name];
    expect(cell('vehicle')).toBe(first?.vehicle);
    expect(cell('booking_state')).toBe('booked');
    expect(cell('booking_depot')).toBe(first?.booking?.depot);
    expect(cell('booking_day')).toBe(first?.booking?.day);
    expect(cell('booking_bay')).toBe(String(first?.booking?.bay));
    expect(cell('rank_week_ago')).toBe(String(first?.week_ago?.rank));
    expect(cell('grade_week_ago')).toBe(first?.week_ago?.grade);
  });
});

it('names the vehicles on hold that have no day ahead of them', async () => {
  const holds = z.array(uncoveredHold).parse(await (await app.get('/api/ranking/uncovered-holds')).json());
  const wanted = matching(
    (row) => row.grade === 'hold' && (row.booking === null || row.booking.past || row.booking.day === null),
  );
  expect(holds.map((one) => one.vehicle).toSorted()).toEqual(wanted.map((row) => row.vehicle).toSorted());
  expect(wanted.length).toBeGreaterThan(0);
  const { headers } = await signInAs(app, 'planner', { depots: ['depot-3'] });
  const own = z.array(uncoveredHold).parse(await (await ask('/api/ranking/uncovered-holds', headers)).json());
  expect(own.every((one) => one.depot === 'depot-3')).toBe(true);
});

it('counts a vehicle as seen to by its day ahead, and by an inspection until it is graded worse', async () => {
  const seen = async () => {
    const { overdue, weeks } = outlook.parse(await (await app.get('/api/ranking/outlook')).json());
    const named = [...overdue, ...weeks.flatMap(({ vehicles }) => vehicles)];
    const expected = weeks.reduce((sum, week) => sum + week.expected, 0);
    return { expected, of: new Map(named.map((one) => [one.vehicle, one.seen_to])) };
  };
  const before = await seen();
  const rows = all.rows.filter(({ vehicle }) => before.of.has(vehicle));
  for (const { vehicle, booking } of rows)
    expect(before.of.get(vehicle), vehicle).toBe(booking?.state === 'booked' && !booking.past);
  expect(new Set(before.of.values())).toEqual(new Set([true, false]));

  const [row] = rows.filter(
    (one) => one.grade !== 'hold' && one.booking === null && one.km_to_limit.p50 !== 0,
  );
  const unit = row?.vehicle ?? '';
  await app.client`delete from grade_changes where vehicle = (select key from vehicles where unit = ${unit})`;
  await app.client`
    insert into bookings (vehicle, state, depot, bay, day, starts_at, ends_at, created_at, created_by, changed_at, changed_by)
    select key, 'done', 'depot-0', 1, '2026-02-20', '2026-02-20T08:00Z', '2026-02-20T10:00Z', '2026-02-20', 't', '2026-02-20T11:00Z', 't'
    from vehicles where unit = ${unit}`;
  const inspectedOn = async () =>
    (await list(`&q=${unit}`)).rows.map(({ inspected_on }) => inspected_on).join();
  expect(await inspectedOn()).toBe('2026-02-20');
  const after = await seen();
  expect(after.of.get(unit)).toBe(true);
  expect(after.expected).toBeLessThan(before.expected);

  const grade = (from: string, to: string) => app.client`
    insert into grade_changes (vehicle, at, from_grade, to_grade)
    select key, ${from === 'hold' ? '2026-02-21' : '2026-02-22'}, ${from}, ${to} from vehicles where unit = ${unit}`;
  await grade('hold', 'watch');
  expect(await inspectedOn()).toBe('2026-02-20');
  await grade('watch', 'book');
  expect(await inspectedOn()).toBe('');
  expect((await seen()).of.get(unit)).toBe(false);
});

describe('free bay days', () => {
  const freeOf = async (query: string) =>
    outlook
      .parse(await (await app.get(`/api/ranking/outlook${query}`)).json())
      .weeks.map((week) => week.bay_days);

  it('are those of the calendars, less what is booked, of the depots asked for', async () => {
    // Depot 0 has two bays of nine hours, Monday to Friday; it is Wednesday, 08:30.
    await app.client`delete from bookings`;
    expect((await freeOf('?depot=depot-0')).slice(0, 3)).toEqual([Math.floor(2 * (7.5 / 9) + 4), 10, 10]);
    await app.client`
      insert into bookings (vehicle, state, depot, bay, day, starts_at, ends_at, created_at, created_by, changed_at, changed_by)
      select key, 'booked', 'depot-0', 1, '2026-03-10', '2026-03-10T07:00Z', '2026-03-10T16:00Z', now(), 't', now(), 't'
      from vehicles where unit = 'F-00001'`;
    expect((await freeOf('?depot=depot-0')).slice(0, 3)).toEqual([5, 9, 10]);
    await app.client`
      update depots set special_days = '[{"day": "2026-03-17", "bays": 0, "hours": null, "note": "holiday"}]'
      where id = 'depot-0'`;
    expect((await freeOf('?depot=depot-0')).slice(0, 3)).toEqual([5, 9, 8]);
    const every = await freeOf('');
    expect(every[2]).toBe(5 * (2 + 3 + 4 + 5 + 2 + 3 + 4 + 5 + 2 + 3) - 2);
  });

  it('of a planner of one depot are those of that depot', async () => {
    const { headers } = await signInAs(app, 'planner', { depots: ['depot-3'] });
    const answer = await ask('/api/ranking/outlook', headers);
    expect(outlook.parse(await answer.json()).weeks[4]?.bay_days).toBe(25);
  });
});

describe('the explanation of a rank', () => {
  const explain = async (query: Record<string, string>, headers?: Record<string, string>) => {
    const answer = await ask(`/api/ranking/explain?${new URLSearchParams(query)}`, headers);
    expect(answer.status).toBe(200);
    return explanation.parse(await answer.json());
  };

  /** Of rounded figures. */
  const excess = (row: RankingRow) => (row.reference_slip_rpm ?? 0) - (row.baseline_rpm ?? 0);

  it.each([undefined, '2000', '20000'])(
    'never disagrees with the order of the list, from the first to the last, within %s km',
    async (horizon) => {
      const within = horizon === undefined ? {} : { horizon_km: horizon };
      const { rows } = await list(horizon === undefined ? '' : `&horizon_km=${horizon}`);
      const kinds = new Set<string>();
      for (const [i, row] of rows.entries()) {
        const { above, below, sentences } = await explain({ vehicle: row.vehicle, ...within });
        const next = rows[i + 1];
        expect(above).toMatchObject({ vehicle: row.vehicle, rank: row.rank, grade: row.grade });
        expect(Math.round(above.cost_avoided)).toBeCloseTo(row.expected_cost_avoided ?? Number.NaN, 0);
        expect(above.chance * above.at_stake - above.inspection).toBeCloseTo(above.cost_avoided, 9);
        if (next === undefined) {
          expect(below).toBeNull();
          expect(sentences).toEqual([expect.stringContaining('is the last of the list')]);
          continue;
        }
        expect(below?.vehicle).toBe(next.vehicle);
        expect(above.cost_avoided).toBeGreaterThanOrEqual(below?.cost_avoided ?? Number.NaN);
        const said = sentences.join(' ');
        if (said.includes('exactly as much')) expect(excess(row)).toBeGreaterThanOrEqual(excess(next) - 0.2);
        expect(said).not.toMatch(/have changed since|NaN|undefined|null/);
        expect(sentences[0]).toContain(`Inspecting ${row.vehicle}`);
        // What is said of the chances is so, and speaks for the lower one only where it is said to.
        const chances = /is ([^.]*?) for \S+ and ([^.]*?) for \S+?(, which speaks|, worth|\.)/.exec(said);
        if (chances !== null && above.chance !== below?.chance)
          expect(chances[3] === ', which speaks').toBe(above.chance < (below?.chance ?? 0));
        for (const [kind, words] of Object.entries({
          chance: 'The chance of a failure',
          stake: 'What a failure on the road costs',
          inspection: 'What an inspection costs',
          slip: 'Of equals the one whose slip',
          first: 'was known first',
          code: 'A trouble code',
        }))
          if (said.includes(words)) kinds.add(kind);
      }
      // The made fleet has each kind of difference somewhere.
      expect([...kinds].sort()).toEqual(
        expect.arrayContaining(['chance', 'code', 'first', 'inspection', 'slip', 'stake']),
      );
    },
    60_000,
  );

  it('is the same whichever of the two is asked for', async () => {
    const [first, , third] = all.rows;
    const [a, b] = [first?.vehicle ?? '', third?.vehicle ?? ''];
    const one = await explain({ vehicle: a, against: b });
    expect(await explain({ vehicle: b, against: a })).toEqual(one);
    expect([one.above.vehicle, one.below?.vehicle]).toEqual([a, b]);
  });

  it('is told in miles for who reads miles', async () => {
    const { sentences } = await explain({ vehicle: all.rows[0]?.vehicle ?? '', units: 'imperial' });
    expect(sentences.join(' ')).toMatch(/\bmi\b/);
    expect(sentences.join(' ')).not.toMatch(/\bkm\b/);
  });

  it('says so where costs have changed and the list has not followed', async () => {
    const [first, second] = all.rows.filter((row) => row.platform === 'platform-1');
    const other = all.rows.find((row) => row.platform === 'platform-2' && row.rank > (second?.rank ?? 0));
    const before = await app.client`select costs from platforms where id = 'platform-1'`;
    await app.client`
      update platforms set costs = costs || '{"road_failure": 0, "planned_repair": 0, "inspection": 9000}'
      where id = 'platform-1'`;
    const { sentences } = await explain({ vehicle: first?.vehicle ?? '', against: other?.vehicle ?? '' });
    expect(sentences).toEqual([expect.stringContaining('have changed since')]);
    await app.client`update platforms set costs = ${JSON.stringify(before[0]?.costs)}::text::jsonb where id = 'platform-1'`;
  });

  it('goes to the next one that a planner of one depot sees, and tells nothing of others', async () => {
    const { headers } = await signInAs(app, 'planner', { depots: ['depot-3'] });
    const own = (await list('', headers)).rows;
    const other = all.rows.find((row) => row.depot !== 'depot-3')?.vehicle ?? '';
    const [first, second] = own;
    for (const horizon of [{}, { horizon_km: '9000' }]) {
      const { rows } = await list(`&${new URLSearchParams(horizon)}`, headers);
      const said = await explain({ vehicle: rows[0]?.vehicle ?? '', ...horizon }, headers);
      expect(said.below?.vehicle).toBe(rows[1]?.vehicle);
    }
    for (const query of [{ vehicle: other }, { vehicle: first?.vehicle ?? '', against: other }]) {
      const answer = await ask(`/api/ranking/explain?${new URLSearchParams(query)}`, headers);
      expect(answer.status).toBe(404);
      expect((await answer.json()).detail).toContain(other);
    }
    expect(second?.depot).toBe('depot-3');
  });

  it('refuses a vehicle against itself, one that is not there, and a horizon that is none', async () => {
    const unit = all.rows[0]?.vehicle ?? '';
    const status = async (query: Record<string, string>) =>
      (await app.get(`/api/ranking/explain?${new URLSearchParams(query)}`)).status;
    expect(await status({ vehicle: unit, against: unit })).toBe(400);
    expect(await status({ vehicle: unit, against: 'none-such' })).toBe(404);
    expect(await status({ vehicle: 'none-such' })).toBe(404);
    expect(await status({ vehicle: unit, horizon_km: '3' })).toBe(400);
    expect(await status({})).toBe(400);
    await app.client`update vehicles set retired = true where unit = ${unit}`;
    expect(await status({ vehicle: unit })).toBe(404);
    await app.client`update vehicles set retired = false where unit = ${unit}`;
  });
});

describe('a choice of many', () => {
  it('gives unit numbers in the order that is asked for', async () => {
    const answer = await app.get('/api/ranking/units?sort=vehicle&horizon_km=3000');
    const { vehicles, total } = rankingUnits.parse(await answer.json());
    expect(total).toBe(count);
    expect(vehicles).toEqual(all.rows.map((row) => row.vehicle).toSorted());
  });

  it('is as long as is asked for, and counts all of them', async () => {
    const { vehicles, total } = rankingUnits.parse(
      await (await app.get('/api/ranking/units?limit=7')).json(),
    );
    expect([vehicles.length, total]).toEqual([7, count]);
    expect((await app.get('/api/ranking/units?limit=10001')).status).toBe(400);
  });
});
