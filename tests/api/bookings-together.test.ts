import { pino } from 'pino';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { openDatabase } from '#db/client.ts';
import { type BookingsReply, bookingsReply } from '#server/contract/bookings.ts';
import { type Running, startSlipdrift } from '#server/main.ts';
import { readSettings } from '#server/settings.ts';
import { book, bookingNow, change, setUpBookableFleet } from '#tests/helpers/bookable-fleet.ts';
import { createTestDatabase, type TestDatabase } from '#tests/helpers/database.ts';
import { callsTo, type TestApp } from '#tests/helpers/start-app.ts';
import { TEST_KEY, withTestKey } from '#tests/helpers/test-key.ts';

const MONDAY = '2026-11-30';
const VEHICLES = 60;

interface Program extends Pick<TestApp, 'url' | 'post'> {
  running: Running;
}

let database: TestDatabase;
/** two programs on the same database, each with connections of its own */
let programs: [Program, Program];
beforeAll(async () => {
  database = await createTestDatabase();
  // A circle of locks is not broken up while a test lasts: where one came about, the test would stand still and fail.
  await database.client`do $$ begin
    execute format('alter database %I set deadlock_timeout = ''1h''', current_database());
  end $$`;
  programs = [await startProgram(), await startProgram()];
  await setUpBookableFleet(programs[0], VEHICLES);
});
afterAll(async () => {
  for (const { running } of programs ?? []) await running.stop();
  await database?.drop();
});

async function startProgram(): Promise<Program> {
  const running = await startSlipdrift(
    { ...readSettings({}), databaseUrl: database.url, port: 0, apiKey: TEST_KEY },
    pino({ level: 'silent' }),
    { clockShiftMs: bookingNow.getTime() - Date.now() },
  );
  return { running, url: running.url, post: callsTo(running.url).post };
}

beforeEach(async () => {
  await database.client`truncate bookings restart identity`;
});

const programOf = (i: number): Program => programs[i % 2 === 0 ? 0 : 1];
const unit = (i: number) => `N-${i + 1}`;

/** One request each, all at once, to both programs in turn. */
const postEach = (bodies: readonly unknown[]) =>
  Promise.all(
    bodies.map(async (body, i) => {
      const answer = await fetch(`${programOf(i).url}/api/bookings`, {
        method: 'POST',
        headers: { 'content-type': 'application/json', ...withTestKey },
        body: JSON.stringify(body),
      });
      return { status: answer.status, reply: await answer.json() };
    }),
  );

/** Pairs that have the same bay at the same time. */
const countOverlaps = async () => {
  const [row] = await database.client`
    select count(*) as n from bookings a join bookings b
      on a.id < b.id and a.depot = b.depot and a.bay = b.bay
        and tstzrange(a.starts_at, a.ends_at) && tstzrange(b.starts_at, b.ends_at)
    where a.state = 'booked' and b.state = 'booked'`;
  return Number(row?.n);
};
const countBooked = async () =>
  Number((await database.client`select count(*) as n from bookings where state = 'booked'`)[0]?.n);
describe('planners who book at the same moment, through two programs', () => {
  it('get one bay at one time once: the others are told who has it', async () => {
    const answers = await postEach(
      Array.from({ length: VEHICLES }, (_, i) => ({
        vehicle: unit(i),
        day: MONDAY,
        bay: 1,
        // Not the same time: all of them lie over 09:00 to 10:00.
        from: `0${7 + (i % 3)}:00`,
      })),
    );
    const won = answers.filter(({ status }) => status === 200);
    const lost = answers.filter(({ status }) => status !== 200);
    expect(won).toHaveLength(1);
    const winner = won[0]?.reply.booked[0].vehicle;
    for (const { status, reply } of lost) {
      expect([status, reply.code, reply.errors[0]?.field]).toEqual([409, 'conflict', 'bay']);
      expect(reply.detail).toContain(`: ${winner} `);
    }
    expect([await countBooked(), await countOverlaps()]).toEqual([1, 0]);
  });

  it('get as many places of any bay as there are, each once', async () => {
    // Two bays of 9 hours: six inspections of 3 hours.
    const answers = await postEach(
      Array.from({ length: VEHICLES }, (_, i) => ({ vehicle: unit(i), day: MONDAY })),
    );
    expect(answers.filter(({ status }) => status === 200)).toHaveLength(6);
    for (const { status, reply } of answers.filter((one) => one.status !== 200)) {
      expect([status, reply.errors[0]?.field]).toEqual([409, 'day']);
      expect(reply.detail).toContain('is too full on Mon 30 Nov for 3 h');
    }
    expect([await countBooked(), await countOverlaps()]).toEqual([6, 0]);
  });

  it('book one vehicle once, whatever the day', async () => {
    const days = [MONDAY, '2026-12-01', '2026-12-02', '2026-12-03', undefined];
    const answers = await postEach(
      Array.from({ length: 50 }, (_, i) => ({
        vehicle: 'N-1',
        day: days[i % days.length],
        reason: 'asked for by many',
      })),
    );
    expect(answers.filter(({ status }) => status === 200)).toHaveLength(1);
    for (const { reply } of answers.filter(({ status }) => status !== 200))
      expect([reply.code, reply.errors[0]?.field]).toEqual(['conflict', 'vehicle']);
    const [row] = await database.client`select count(*) as n from bookings`;
    expect(row?.n).toBe(1);
  });

  it('accept overlapping proposals, in opposite orders, and each place goes to one of them', async () => {
    const days = [MONDAY, '2026-12-01', '2026-12-02', '2026-12-03', '2026-12-04'];
    const proposal = (shift: number) =>
      days.flatMap((day, d) =>
        [1, 2].flatMap((bay) =>
          ['07:00', '10:00', '13:00'].map((from, f) => ({
            vehicle: unit((d * 6 + bay * 3 + f + shift) % VEHICLES),
            day,
            bay,
            from,
          })),
        ),
      );
    // The same places; of the vehicles some are in both.
    const answers = await postEach([
      proposal(0),
      proposal(15).reverse(),
      proposal(30),
      proposal(45).reverse(),
    ]);
    const replies: BookingsReply[] = answers.map(({ reply }) => bookingsReply.parse(reply));
    const booked = replies.flatMap((reply) => reply.booked);
    expect(new Set(booked.map(({ day, bay, from }) => `${day} ${bay} ${from}`)).size).toBe(booked.length);
    expect(new Set(booked.map(({ vehicle }) => vehicle)).size).toBe(booked.length);
    // Every place was asked for by four, and a place stays empty only where all four vehicles were booked elsewhere.
    expect(booked.length).toBeGreaterThan(25);
    expect(await countBooked()).toBe(booked.length);
    expect(await countOverlaps()).toBe(0);
    for (const { booked: own, refused } of replies) {
      expect(own.length + refused.length).toBe(30);
      for (const { field, message } of refused) {
        expect(['bay', 'vehicle']).toContain(field);
        expect(message).toMatch(/is taken on|is booked already/);
      }
    }
  });
});

describe('planners who move at the same moment', () => {
  it('with the version that both saw: one moves it, the others are told who did', async () => {
    const made = await book(programs[0], { vehicle: 'N-1', day: MONDAY });
    const days = ['2026-12-01', '2026-12-02', '2026-12-03', '2026-12-04'];
    const answers = await Promise.all(
      Array.from({ length: 40 }, (_, i) =>
        change(programOf(i), withTestKey, made, 'move', { version: 1, day: days[i % 4] }),
      ),
    );
    const won = answers.filter(({ status }) => status === 200);
    expect(won).toHaveLength(1);
    expect(won[0]?.booking?.version).toBe(2);
    for (const { status, reply } of answers.filter((one) => one.status !== 200)) {
      expect([status, reply.errors[0].field]).toEqual([409, 'version']);
      expect(reply.detail).toMatch(
        /^set-up key changed this booking of N-1 meanwhile \(Thu 26 Nov 2026, 10:\d\d\)/,
      );
    }
  });

  it('to one place, while others book it: one gets it, and no circle of locks comes of it', async () => {
    const days = [MONDAY, '2026-12-01', '2026-12-02', '2026-12-03'];
    const made = await Promise.all(
      Array.from({ length: 24 }, (_, i) =>
        book(programOf(i), { vehicle: unit(i), day: days[i % days.length] }),
      ),
    );
    const place = { day: '2026-12-04', bay: 1, from: '08:00' };
    const [moves, posts] = await Promise.all([
      Promise.all(
        made.map((one, i) => change(programOf(i), withTestKey, one, 'move', { version: 1, ...place })),
      ),
      postEach(Array.from({ length: 12 }, (_, i) => ({ vehicle: unit(30 + i), ...place }))),
    ]);
    const all = [...moves, ...posts];
    expect(all.filter(({ status }) => status === 200)).toHaveLength(1);
    for (const { status, reply } of all.filter((one) => one.status !== 200)) {
      expect([status, reply.errors[0].field]).toEqual([409, 'bay']);
      expect(reply.detail).toContain('Bay 1 of Skarrowick is taken on Fri 4 Dec at 08:00');
    }
    expect(await countOverlaps()).toBe(0);
  });

  it.each([
    ['moved', { from: '07:00', bay: 2 }],
    ['booked', { from: '07:00', bay: 2 }],
  ] as const)(
    'are not stopped where somebody takes the place that they found before they have stored it: %s',
    async (what, expected) => {
      const made = await book(programs[0], { vehicle: 'N-1', day: MONDAY });
      const other = openDatabase(database.url, { connections: 1 });
      let commit = () => {};
      const held = new Promise<void>((resolve) => {
        commit = resolve;
      });
      // Not yet committed: nobody sees it, and whoever wants the place has to wait.
      const taking = other.client.begin(async (transaction) => {
        await transaction`
          insert into bookings (vehicle, state, depot, bay, day, starts_at, ends_at, created_at, created_by, changed_at, changed_by)
          select key, 'booked', 'north', 1, '2026-12-01', '2026-12-01T06:00Z', '2026-12-01T09:00Z', now(), 'x', now(), 'x'
          from vehicles where unit = 'N-2'`;
        await held;
      });
      await expect.poll(() => countSessions("state = 'idle in transaction'")).toBe(1);
      const day = '2026-12-01';
      const asked =
        what === 'booked'
          ? book(programs[1], { vehicle: 'N-3', day })
          : change(programs[0], withTestKey, made, 'move', { version: 1, day }).then(
              (moved) => moved.booking,
            );
      await expect.poll(() => countSessions("wait_event = 'transactionid'")).toBe(1);
      commit();
      await taking;
      await other.close();
      expect(await asked).toMatchObject({ day, ...expected });
      expect(await countOverlaps()).toBe(0);
    },
  );
});

describe('planners who book while the time zone of a depot is corrected', () => {
  const day = '2026-12-01';
  const names = { north: 'Skarrowick', south: 'Harrowmead' };
  const setZone = (program: Program, depots: readonly (keyof typeof names)[], time_zone: string) =>
    program.post(
      '/api/depots',
      depots.map((id) => ({ id, name: names[id], time_zone })),
    );
  afterEach(async () => {
    await setZone(programs[0], ['north', 'south'], 'Europe/Vienna');
  });

  it.each([
    ['booked', ['north']],
    ['moved', ['north']],
    ['booked', ['south', 'north']],
    ['moved', ['south', 'north']],
  ] as const)('have the time of day that they were told: %s, as %j change', async (what, depots) => {
    const made = await book(programs[0], { vehicle: 'N-1', day: MONDAY });
    const other = openDatabase(database.url, { connections: 1 });
    let letGo = () => {};
    const held = new Promise<void>((resolve) => {
      letGo = resolve;
    });
    const holding = other.client.begin(async (transaction) => {
      await transaction`select pg_advisory_xact_lock(730511520, hashtext(${`north ${day}`}))`;
      await held;
    });
    await expect.poll(() => countSessions("state = 'idle in transaction'")).toBe(1);
    const place = { day, from: '09:00' };
    const asked =
      what === 'booked'
        ? book(programs[0], { vehicle: 'N-2', ...place })
        : change(programs[0], withTestKey, made, 'move', { version: 1, ...place }).then(
            ({ booking }) => booking,
          );
    await expect.poll(() => countSessions("wait_event = 'advisory'")).toBe(1);
    let answered = false;
    const corrected = setZone(programs[1], depots, 'Europe/London').finally(() => {
      answered = true;
    });
    await expect
      .poll(async () => answered || (await countSessions("wait_event_type = 'Lock'")) === 2)
      .toBe(true);
    letGo();
    await holding;
    await other.close();
    expect(await asked).toMatchObject(place);
    expect((await corrected).status).toBe(200);
    const [row] = await database.client`
      select to_char(starts_at at time zone time_zone, 'HH24:MI') as from, time_zone
      from bookings b join depots d on d.id = b.depot where b.day = ${day}`;
    expect(row).toEqual({ from: '09:00', time_zone: 'Europe/London' });
  });
});

const countSessions = async (which: string) =>
  Number(
    (
      await database.client.unsafe(
        `select count(*) as n from pg_stat_activity where datname = current_database() and ${which}`,
      )
    )[0]?.n,
  );
