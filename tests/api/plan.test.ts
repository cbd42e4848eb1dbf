import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { bookingsReply } from '#server/contract/bookings.ts';
import { type Plan, plan, planRequest } from '#server/contract/plan.ts';
import { problem } from '#server/contract/problems.ts';
import { loadSolver } from '#server/planning-thread/load-solver.ts';
import { solveInTime } from '#server/planning-thread/solve-in-time.ts';
import { proposePlan } from '#server/services/plan/propose-plan.ts';
import type { SolveDepots } from '#server/services/plan/solve-depots.ts';
import { assessByHand, type HandAssessment } from '#tests/helpers/assess-by-hand.ts';
import { book, bookingNow, change, setUpBookableFleet } from '#tests/helpers/bookable-fleet.ts';
import { signInAs } from '#tests/helpers/sign-in.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';
import { withTestKey } from '#tests/helpers/test-key.ts';

const [THURSDAY, FRIDAY, MONDAY] = ['2026-11-26', '2026-11-27', '2026-11-30'];

/** Certain to reach its limit within the given kilometres, evenly. */
const within = (km: number, chance = 1): [number, number][] => [[km, chance]];
const soon = within(2_000);
const safe = within(100_000, 0.001);

let app: TestApp;
beforeAll(async () => {
  app = await startApp({}, bookingNow);
  await setUpBookableFleet(app);
  await app.post('/api/vehicles', [
    { id: 'R-1', depot: 'north', retired: true },
    { id: 'X-1', platform: 'short' },
    { id: 'B-1', depot: 'bare', platform: 'short' },
  ]);
});
afterAll(() => app?.stop());
beforeEach(async () => {
  await app.client`truncate bookings, assessments, grade_changes restart identity`;
  await app.client`update vehicles set unavailable = '[]', platform = 'short' where platform is not null`;
});

const assess = (unit: string, given: Partial<HandAssessment>) =>
  assessByHand(app.client, unit, { grade: 'book', chances: soon, at: bookingNow, ...given });

const ask = (body: unknown, headers: Record<string, string> = {}) => app.post('/api/plan', body, headers);

async function propose(
  body: Partial<(typeof planRequest)['_input']> = {},
  headers: Record<string, string> = {},
): Promise<Plan> {
  const answer = await ask(body, headers);
  const reply = await answer.json();
  expect(reply.detail ?? answer.status).toBe(200);
  const proposed = plan.parse(reply);
  expectSumsToAgree(proposed);
  return proposed;
}

const cents = (value: number) => Math.round(value * 100) / 100;
const sum = (values: readonly number[]) => cents(values.reduce((total, value) => total + value, 0));

/** What a reader adds up must be what stands below the line. */
function expectSumsToAgree({ assignments, left_out, already_booked, ...totals }: Plan) {
  const others = already_booked.risk + sum(left_out.map(({ risk }) => risk));
  expect(totals.risk_without).toBe(cents(others + sum(assignments.map(({ risk }) => risk))));
  expect(totals.risk_with).toBe(cents(others + sum(assignments.map(({ risk_before }) => risk_before))));
  expect(totals.inspection_cost).toBe(sum(assignments.map(({ inspection_cost }) => inspection_cost)));
  for (const one of assignments)
    expect(one.cost_avoided).toBe(cents(one.risk - one.risk_before - one.inspection_cost));
}

const placesOf = ({ assignments }: Plan) =>
  assignments.map(({ vehicle, day, bay, from, to }) => `${vehicle} ${day} bay ${bay} ${from}-${to}`);
const leftOf = ({ left_out }: Plan) => left_out.map(({ vehicle, reason }) => [vehicle, reason]);

describe('a proposed plan', () => {
  it('is empty where nobody asks for a day', async () => {
    await assess('N-1', { grade: 'steady', chances: safe });
    const proposed = await propose();
    expect(proposed).toMatchObject({
      from: THURSDAY,
      to: '2026-12-09',
      counted_to: '2026-12-23',
      as_of: bookingNow.toISOString(),
      optimal: true,
      gap: 0,
      assignments: [],
      left_out: [],
      risk_without: 0,
      inspection_cost: 0,
    });
    expect(proposed.seconds).toBeLessThan(10);
  });

  it('weighs a day by the chance before it and by the end, and says why', async () => {
    await assess('N-1', { chances: within(10_000), kmPerDay: 100 });
    const { assignments, counted_to } = await propose({ from: MONDAY, days: 7, depots: ['north'] });
    expect(counted_to).toBe('2026-12-13');
    // Four days ahead 400 km, by the evening of 13 December 1,800: a clutch past its limit drives on for up to 1,000 km.
    const before = 400 ** 2 / 2 / 1_000 / 10_000;
    const byEnd = (1_800 ** 2 - 800 ** 2) / 2 / 1_000 / 10_000;
    const risk = cents(byEnd * (9_000 - 3_200));
    const riskBefore = cents(before * (9_000 - 3_200));
    expect(assignments).toEqual([
      {
        vehicle: 'N-1',
        grade: 'book',
        platform: 'short',
        depot: 'north',
        day: MONDAY,
        bay: 1,
        from: '07:00',
        to: '10:00',
        hours: 3,
        chance_before: before,
        chance_by_end: byEnd,
        risk,
        risk_before: riskBefore,
        inspection_cost: 180,
        cost_avoided: cents(risk - riskBefore - 180),
        put_off: null,
        why: 'Slip has risen from 19 to 76 rpm over 9,400 km',
      },
    ]);
  });

  it('fills the bays from now on, around what is booked, and every place of it can be booked as it is', async () => {
    await book(app, { vehicle: 'S-12', day: FRIDAY, from: '09:00', hours: 2 });
    for (let i = 1; i <= 8; i += 1) await assess(`S-${i}`, { chances: within(4_000, 1 - i / 20) });
    const proposed = await propose({ depots: ['south'], days: 5 });
    // Today from a quarter past ten one of 3 h, as 16:00 is before the second has ended; on Friday before and after the booking.
    expect(placesOf(proposed)).toEqual([
      `S-1 ${THURSDAY} bay 1 10:15-13:15`,
      `S-2 ${FRIDAY} bay 1 11:00-14:00`,
      `S-3 ${MONDAY} bay 1 07:00-10:00`,
      `S-4 ${MONDAY} bay 1 10:00-13:00`,
      `S-5 ${MONDAY} bay 1 13:00-16:00`,
    ]);
    expect(leftOf(proposed)).toEqual([
      ['S-6', 'no_room'],
      ['S-7', 'no_room'],
      ['S-8', 'no_room'],
    ]);
    const [south] = proposed.depots;
    expect(south).toMatchObject({
      bay_hours: 23.75,
      booked_hours: 2,
      proposed_hours: 15,
      optimal: true,
      gap: 0,
    });
    // What is left of today would take one more, the whole of tomorrow three.
    expect(south?.extra_bay_day).toMatchObject({ day: FRIDAY, holds: 0 });
    expect(south?.extra_bay_day?.worth).toBeGreaterThan(1_000);
    const answer = await app.post(
      '/api/bookings',
      proposed.assignments.map(({ vehicle, depot, day, bay, from, hours }) => ({
        vehicle,
        depot,
        day,
        bay,
        from,
        hours,
      })),
    );
    const { booked, refused } = bookingsReply.parse(await answer.json());
    expect([booked.length, refused]).toEqual([5, []]);
    const again = await propose({ depots: ['south'], days: 5 });
    expect(again.assignments).toEqual([]);
    expect(again.already_booked.vehicles.toSorted()).toEqual(['S-1', 'S-12', 'S-2', 'S-3', 'S-4', 'S-5']);
    expect(again.already_booked.risk).toBeGreaterThan(0);
  });

  it('gives those on hold a day first, and says on top who of them gets none and what would help', async () => {
    for (let i = 1; i <= 3; i += 1) await assess(`S-${i}`, { grade: 'hold', chances: safe, kmPerDay: 0 });
    await assess('S-4', { chances: within(300) });
    const proposed = await propose({
      depots: ['south'],
      from: FRIDAY,
      days: 1,
      vehicles: ['S-1', 'S-2', 'S-3', 'S-4'],
    });
    expect(proposed.assignments.map(({ vehicle }) => vehicle)).toEqual(['S-1', 'S-2', 'S-3']);
    expect(proposed.uncovered_holds).toEqual([]);
    expect(leftOf(proposed)).toEqual([['S-4', 'no_room']]);
    await book(app, { vehicle: 'S-12', day: FRIDAY, from: '07:00', hours: 6 });
    const short = await propose({ depots: ['south'], from: FRIDAY, days: 1 });
    expect(short.uncovered_holds).toEqual(['S-2', 'S-3']);
    expect(short.warnings[0]).toBe(
      '2 vehicles on hold get no day: S-2 and S-3. Do not dispatch them. One more bay at Harrowmead on Fri 27 Nov would take 2 of them. Plan more days, add a bay or hours, or move a booking that is not on hold.',
    );
    expect(short.left_out.map(({ vehicle, words }) => [vehicle, words])[0]).toEqual([
      'S-2',
      'No bay of Harrowmead has 3 h left for it that others do not need more.',
    ]);
    expect(short.depots[0]?.extra_bay_day).toMatchObject({ day: FRIDAY, holds: 2 });
  });

  it('leaves out who cannot be taken or need not be, each with the reason', async () => {
    await app.post('/api/vehicles', [
      { id: 'N-2', unavailable: [{ from: THURSDAY, to: '2026-12-31', note: 'on hire' }] },
      { id: 'N-3', platform: 'long' },
      { id: 'N-10', unavailable: [{ from: THURSDAY, to: FRIDAY }] },
    ]);
    await assess('N-1', {});
    await assess('N-2', { grade: 'hold' });
    await assess('N-3', {});
    await assess('N-4', { kmPerDay: 0 });
    await assess('N-5', { chances: within(100_000, 0.05) });
    await assess('N-10', { kmPerDay: 30 });
    await assess('X-1', { grade: 'hold' });
    await assess('B-1', {});
    await assess('N-6', { grade: 'watch', chances: safe });
    const proposed = await propose();
    expect(proposed.assignments.map(({ vehicle, day }) => `${vehicle} ${day}`)).toEqual([
      `N-1 ${THURSDAY}`,
      `N-10 ${MONDAY}`,
    ]);
    expect(Object.fromEntries(leftOf(proposed))).toEqual({
      'N-2': 'unavailable',
      'N-3': 'too_long',
      'N-4': 'stands',
      'N-5': 'not_worth_it',
      'X-1': 'no_depot',
      'B-1': 'no_working_day',
    });
    expect(
      proposed.left_out
        .slice(0, 2)
        .map(({ vehicle }) => vehicle)
        .toSorted(),
    ).toEqual(['N-2', 'X-1']);
    expect(proposed.warnings).toEqual([
      expect.stringMatching(/^2 vehicles on hold get no day: .*Free those that are away on every day\.$/),
      'Bare yard has no bays, so nothing is planned there.',
      '1 vehicle that asks for a day belongs to no depot: X-1. Say where it belongs to have it planned.',
    ]);
    // Asked for by name, also who asks for nothing is told of.
    expect(leftOf(await propose({ vehicles: ['N-6'] }))).toEqual([['N-6', 'not_worth_it']]);
  });

  it('takes the usual pace of the platform where nobody knows how far one drives', async () => {
    await assess('N-1', { kmPerDay: 100 });
    await assess('N-2', { kmPerDay: null });
    await assess('N-3', { kmPerDay: 100 });
    const { assignments } = await propose({ depots: ['north'] });
    expect(new Set(assignments.map(({ chance_by_end }) => chance_by_end)).size).toBe(1);
  });

  it('counts a trouble code as a chance that grows with the way', async () => {
    await assess('N-1', { chances: safe, codes: 1, kmPerDay: 125 });
    const { assignments } = await propose({ depots: ['north'], days: 10 });
    // 20 days of 125 km are half of the 5,000 km that it stands for.
    expect(assignments).toMatchObject([{ vehicle: 'N-1', chance_by_end: 0.05 }]);
  });

  it('says where nobody knows how far from the best it is, and what to do', async () => {
    await assess('N-1', {});
    const solver = await loadSolver();
    const withoutTime: SolveDepots = async (questions) =>
      solveInTime(questions, { ...solver, until: () => solver.until(0) });
    const request = planRequest.parse({ depots: ['north', 'south'] });
    const proposed = await proposePlan(app.running.context, request, withoutTime);
    expect(proposed.assignments.map(({ vehicle }) => vehicle)).toEqual(['N-1']);
    expect(proposed).toMatchObject({
      gap: null,
      depots: [
        { depot: 'south', gap: 0 },
        { depot: 'north', gap: null },
      ],
    });
    const words =
      'It is not known how much better the plan of Skarrowick could be. Plan fewer days or vehicles at once';
    expect(proposed.warnings).toEqual([`${words}, or fewer depots, to know.`]);
    const alone = await proposePlan(app.running.context, { ...request, depots: ['north'] }, withoutTime);
    expect(alone.warnings).toEqual([`${words} to know.`]);
  });

  it('says the reasons in the units of the reader', async () => {
    await assess('N-1', {});
    const { assignments } = await propose({ depots: ['north'], units: 'imperial' });
    expect(assignments[0]?.why).toBe('Slip has risen from 19 to 76 rpm over 5,900 mi');
  });
});

describe('what was booked before', () => {
  it('moves a booking that waits for a day, and asks for past ones to be closed', async () => {
    await assess('N-1', {});
    await assess('N-2', { grade: 'hold' });
    const waiting = await book(app, { vehicle: 'N-1', reason: 'waits for a part' });
    const past = await book(app, { vehicle: 'N-2', day: FRIDAY, from: '07:00' });
    await app.client`
      update bookings set day = '2026-11-24', starts_at = '2026-11-24T06:00Z', ends_at = '2026-11-24T09:00Z'
      where id = ${past.id}`;
    const proposed = await propose({ depots: ['north'] });
    expect(proposed.assignments).toMatchObject([
      { vehicle: 'N-1', put_off: { id: waiting.id, version: waiting.version } },
    ]);
    expect(leftOf(proposed)).toEqual([['N-2', 'past_booking']]);
    expect(proposed.warnings[0]).toMatch(
      /^1 vehicle on hold gets no day: N-2\. .*Close the bookings that are over\.$/,
    );
    const [one] = proposed.assignments;
    const moved = await change(app, withTestKey, waiting, 'move', {
      version: one?.put_off?.version,
      day: one?.day,
      bay: one?.bay,
      from: one?.from,
    });
    expect(moved.booking).toMatchObject({ state: 'booked', day: THURSDAY });
  });

  it('does not send one that was just inspected again, unless it got worse since', async () => {
    for (const unit of ['N-1', 'N-2', 'N-3']) await assess(unit, { grade: 'hold' });
    for (const [unit, day] of [
      ['N-1', '2026-11-24'],
      ['N-2', '2026-11-24'],
      ['N-3', '2026-11-10'],
    ] as const)
      await app.client`
        insert into bookings (vehicle, state, depot, bay, day, starts_at, ends_at, created_at, created_by, changed_at, changed_by)
        select key, 'done', 'north', 1, ${day}, ${`${day}T06:00Z`}, ${`${day}T09:00Z`}, now(), 'test', now(), 'test'
        from vehicles where unit = ${unit}`;
    await app.client`update grade_changes set at = '2026-11-01T00:00Z'`;
    await app.client`
      insert into grade_changes (vehicle, at, from_grade, to_grade)
      select key, '2026-11-25T00:00Z', 'book', 'hold' from vehicles where unit = 'N-2'`;
    const proposed = await propose({ depots: ['north'] });
    expect(proposed.assignments.map(({ vehicle }) => vehicle).toSorted()).toEqual(['N-2', 'N-3']);
    expect(leftOf(proposed)).toEqual([['N-1', 'inspected']]);
    expect(proposed.uncovered_holds).toEqual([]);
    expect(proposed.warnings).toEqual([
      '1 vehicle still on hold was inspected within the last two weeks, so no day is proposed: N-1. Look at what was found, or book by hand.',
    ]);
  });

  it('asks for a booking to be moved that no longer fits', async () => {
    await assess('N-1', { grade: 'hold' });
    await book(app, { vehicle: 'N-1', day: FRIDAY, from: '07:00' });
    expect((await propose({ depots: ['north'] })).already_booked.vehicles).toEqual(['N-1']);
    await app.client`
      update vehicles set unavailable = ${JSON.stringify([{ from: THURSDAY, to: FRIDAY, note: '' }])}::text::jsonb
      where unit = 'N-1'`;
    const proposed = await propose({ depots: ['north'] });
    expect(proposed.already_booked).toEqual({ vehicles: [], risk: 0 });
    expect(proposed.uncovered_holds).toEqual(['N-1']);
    expect(proposed.left_out).toMatchObject([
      {
        vehicle: 'N-1',
        reason: 'misfit_booking',
        words: expect.stringContaining('unavailable until Fri 27 Nov. Move it.'),
      },
    ]);
  });

  it('counts what is booked in a bay that the depot no longer has, and does not plan there', async () => {
    await book(app, { vehicle: 'N-12', day: FRIDAY, bay: 2, from: '07:00', hours: 9 });
    await app.client`update depots set bays = 1 where id = 'north'`;
    try {
      for (let i = 1; i <= 4; i += 1) await assess(`N-${i}`, {});
      const proposed = await propose({ depots: ['north'], from: FRIDAY, days: 1 });
      expect(proposed.assignments.map(({ bay }) => bay)).toEqual([1, 1, 1]);
      expect(proposed.depots[0]).toMatchObject({ bay_hours: 9, booked_hours: 9, proposed_hours: 9 });
    } finally {
      await app.client`update depots set bays = 2 where id = 'north'`;
    }
  });
});

describe('who asks', () => {
  it('gets a plan of the depots that they work for, and of no other', async () => {
    for (const unit of ['N-1', 'S-1', 'X-1']) await assess(unit, {});
    const { headers } = await signInAs(app, 'planner', { depots: ['south'] });
    const answer = await fetch(`${app.url}/api/plan`, { method: 'POST', headers, body: '{}' });
    const proposed = plan.parse(await answer.json());
    expect(proposed.depots.map(({ depot }) => depot)).toEqual(['south']);
    expect(proposed.assignments.map(({ vehicle }) => vehicle)).toEqual(['S-1']);
    expect(leftOf(proposed)).toEqual([]);
    const refusals = await Promise.all(
      [{ depots: ['north'] }, { vehicles: ['N-1'] }, { vehicles: ['X-1'] }].map(async (body) => {
        const refused = await fetch(`${app.url}/api/plan`, {
          method: 'POST',
          headers,
          body: JSON.stringify(body),
        });
        return [refused.status, problem.parse(await refused.json()).detail];
      }),
    );
    expect(refusals).toEqual([
      [403, 'You do not work for Skarrowick, so you cannot plan its bays. Nothing was changed.'],
      [404, "No vehicle 'N-1' is known. Nothing was changed."],
      [404, "No vehicle 'X-1' is known. Nothing was changed."],
    ]);
  });
});

describe('what cannot be planned', () => {
  it.each([
    [
      { from: '2026-11-25' },
      400,
      /^Wed 25 Nov is past: at .+ it is Thu 26 Nov\. Ask for a plan from today on\./,
    ],
    [
      { from: '2027-11-26', days: 30 },
      400,
      /^The plan would end after .+ 2027, the last day that can be booked\./,
    ],
    [{ days: 0 }, 400, /'days'/],
    [{ days: 61 }, 400, /'days'/],
    [{ from: '2026-02-30' }, 400, /'from' must be a day/],
    [{ depots: ['nowhere'] }, 404, /^No depot 'nowhere' is known\./],
    [{ depots: [] }, 400, /'depots'/],
    [{ vehicles: ['N-1', 'Z-1', 'Z-2'] }, 404, /^No vehicle 'Z-1' and 'Z-2' is known\./],
    [{ vehicles: ['R-1'] }, 409, /^R-1 is retired, so no inspection is planned: leave it out\./],
    [{ vehicles: ['N-1'], depots: ['south'] }, 400, /^N-1 belongs to none of the depots asked for/],
    [
      { from: '2026-11-28', days: 2 },
      409,
      /^Nothing can be planned: .+ have no bay and working day from Sat 28 Nov to Sun 29 Nov\. Ask for more days/,
    ],
    [{ depots: ['bare'] }, 409, /^Nothing can be planned: Bare yard has no bay and working day/],
    ['"plan"', 400, /body/],
  ])('is refused with what to do: %j', async (body, status, detail) => {
    const answer = await ask(body);
    const said = problem.parse(await answer.json());
    expect([answer.status, said.detail]).toEqual([status, expect.stringMatching(detail)]);
  });

  it('is planned on its working days alone where it has some', async () => {
    await assess('N-1', {});
    const proposed = await propose({ from: '2026-11-28', days: 3, depots: ['north', 'south', 'bare'] });
    expect(placesOf(proposed)).toEqual([`N-1 ${MONDAY} bay 1 07:00-10:00`]);
    expect(proposed.warnings).toEqual(['Bare yard has no bays, so nothing is planned there.']);
  });
});
