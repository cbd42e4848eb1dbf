import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { bookings as bookingTable } from '#db/schema/planning.ts';
import { bookingsReply } from '#server/contract/bookings.ts';
import { usualWeek } from '#server/contract/calendar.ts';
import { type Plan, plan } from '#server/contract/plan.ts';
import { dayOfDepot } from '#server/services/calendar/depot-days.ts';
import { momentOf } from '#server/services/calendar/local-time.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';
import { storeMadeFleet } from '#tests/helpers/store-made-fleet.ts';

/** A Thursday morning; the depots of the made fleet lie in London. */
const NOW = new Date('2026-11-26T09:00:00Z');
const TIME_ZONE = 'Europe/London';

let app: TestApp;
let proposed: Plan;
beforeAll(async () => {
  app = await startApp({}, NOW);
  await storeMadeFleet(app.running.context, 2_300);
  // Little room: the hours of two bays, one day closed, and a platform that takes longer.
  await app.client`
    update depots set bays = 1 + (bays % 2), special_days = ${JSON.stringify([
      { day: '2026-11-30', bays: 0, hours: null, note: 'stock-taking' },
    ])}::text::jsonb`;
  await app.client`update platforms set inspection_hours = 4.5 where id = 'platform-1'`;
  await app.client`
    update vehicles set unavailable = ${JSON.stringify([
      { from: '2026-11-26', to: '2026-12-01', note: 'on hire' },
    ])}::text::jsonb where key % 3 = 0`;
  const answer = await app.post('/api/plan', { days: 9 });
  proposed = plan.parse(await answer.json());
});
afterAll(() => app?.stop());

describe('the plan of a fleet of several pages', () => {
  it('tells of each vehicle once: with a day, left out, or booked already', () => {
    const told = [
      ...proposed.assignments.map(({ vehicle }) => vehicle),
      ...proposed.left_out.map(({ vehicle }) => vehicle),
      ...proposed.already_booked.vehicles,
    ];
    expect(new Set(told).size).toBe(told.length);
    expect(proposed.assignments.length).toBeGreaterThan(60);
    // Of the second and of the third thousand too.
    for (const page of [/^F-00/, /^F-01/, /^F-02/]) expect(told.some((unit) => page.test(unit))).toBe(true);
  });

  it('tells of every vehicle on hold', async () => {
    const holds = await app.client<{ unit: string }[]>`
      select v.unit from assessments a join vehicles v on v.key = a.vehicle where a.grade = 'hold'`;
    const told = new Set([
      ...proposed.assignments.map(({ vehicle }) => vehicle),
      ...proposed.left_out.map(({ vehicle }) => vehicle),
      ...proposed.already_booked.vehicles,
    ]);
    expect(holds.map(({ unit }) => unit).filter((unit) => !told.has(unit))).toEqual([]);
    expect(holds.length).toBeGreaterThan(20);
  });

  it('puts nobody into a bay that is taken, closed or missing, nor where others are put', async () => {
    const booked = await app.db.select().from(bookingTable);
    const spans = [
      ...proposed.assignments.map(({ depot, day, bay, from, to }) => ({
        place: `${depot} bay ${bay}`,
        from: momentOf(TIME_ZONE, day, from).getTime(),
        to: momentOf(TIME_ZONE, day, to).getTime(),
      })),
      ...booked.flatMap(({ state, depot, bay, startsAt, endsAt }) =>
        state !== 'booked' || startsAt === null || endsAt === null
          ? []
          : [{ place: `${depot} bay ${bay}`, from: startsAt.getTime(), to: endsAt.getTime() }],
      ),
    ].toSorted((a, b) => (a.place < b.place ? -1 : a.place > b.place ? 1 : a.from - b.from));
    for (const [i, span] of spans.entries()) {
      const before = spans[i - 1];
      if (before?.place === span.place) expect(span.from, span.place).toBeGreaterThanOrEqual(before.to);
    }
    const depots = await app.client<{ id: string; bays: number }[]>`select id, bays from depots`;
    for (const { depot, day, bay, from, to, hours, platform } of proposed.assignments) {
      const bays = depots.find(({ id }) => id === depot)?.bays ?? 0;
      const calendar = { bays, timeZone: TIME_ZONE, week: usualWeek, specialDays: [] };
      const open = dayOfDepot(calendar, day).hours;
      expect(day).not.toBe('2026-11-30');
      expect(bay).toBeLessThanOrEqual(bays);
      expect([from >= (open?.from ?? '24:00'), to <= (open?.to ?? '00:00')]).toEqual([true, true]);
      expect(hours).toBe(platform === 'platform-1' ? 4.5 : 3);
    }
  });

  it('leaves vehicles on their days away alone', async () => {
    const away = new Set(
      (await app.client<{ unit: string }[]>`select unit from vehicles where key % 3 = 0`).map(
        ({ unit }) => unit,
      ),
    );
    const ofThem = proposed.assignments.filter(({ vehicle }) => away.has(vehicle));
    expect(ofThem.length).toBeGreaterThan(5);
    for (const { day } of ofThem) expect(day > '2026-12-01').toBe(true);
  });

  it('is taken as it is by the bookings', async () => {
    const fresh = proposed.assignments.filter(({ put_off }) => put_off === null);
    const answer = await app.post(
      '/api/bookings',
      fresh.map(({ vehicle, depot, day, bay, from, hours }) => ({ vehicle, depot, day, bay, from, hours })),
    );
    const reply = bookingsReply.parse(await answer.json());
    expect([reply.booked.length, reply.refused]).toEqual([fresh.length, []]);
  });
});
