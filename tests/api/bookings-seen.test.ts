import { parse } from 'csv-parse/sync';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { type Booking, bayPlan, bookingList } from '#server/contract/bookings.ts';
import { plan as planContract } from '#server/contract/plan.ts';
import { ranking } from '#server/contract/ranking.ts';
import { book, bookingNow, change, gradeVehicle, setUpBookableFleet } from '#tests/helpers/bookable-fleet.ts';
import { type SignedInPerson, signInAs } from '#tests/helpers/sign-in.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';
import { withTestKey } from '#tests/helpers/test-key.ts';

const THURSDAY = '2026-11-26';
const MONDAY = '2026-11-30';
const TUESDAY = '2026-12-01';

let app: TestApp;
let north: SignedInPerson;
beforeAll(async () => {
  app = await startApp({}, bookingNow);
  await setUpBookableFleet(app);
  // Where it is tomorrow already, and where it is not yet today.
  await app.post('/api/depots', [
    { id: 'east', name: 'East end', bays: 1, time_zone: 'Pacific/Kiritimati' },
    { id: 'west', name: 'West end', bays: 1, time_zone: 'Pacific/Pago_Pago' },
  ]);
  north = await signInAs(app, 'planner', { depots: ['north'] });
});
afterAll(() => app?.stop());
beforeEach(async () => {
  await app.client`truncate bookings, assessments, grade_changes restart identity`;
});

const get = async (path: string, headers: Record<string, string> = withTestKey) => {
  const answer = await fetch(`${app.url}${path}`, { headers });
  return { status: answer.status, reply: await answer.json() };
};
const list = async (query: string, headers?: Record<string, string>) =>
  bookingList.parse((await get(`/api/bookings?${query}`, headers)).reply).map(({ vehicle }) => vehicle);
const plan = async (query = '', headers?: Record<string, string>) =>
  bayPlan.parse((await get(`/api/bay-plan?${query}`, headers)).reply);

async function setBack({ id }: Booking, day: string): Promise<void> {
  await app.client`
    update bookings set day = ${day}, starts_at = starts_at + (${day}::date - day) * interval '1 day',
      ends_at = ends_at + (${day}::date - day) * interval '1 day' where id = ${id}`;
}
const close = (made: Booking, what: 'cancel' | 'put-off' | 'done') =>
  change(app, withTestKey, made, what, {
    version: made.version,
    reason: 'said so',
    ...(what === 'done' ? {} : { leaves_hold: true }),
  });

describe('the list of bookings', () => {
  it('begins today at each depot, in the order of time, those put off at the end', async () => {
    await book(app, { vehicle: 'N-1', day: TUESDAY });
    await book(app, { vehicle: 'N-2', day: MONDAY, from: '10:00' });
    await book(app, { vehicle: 'N-3', day: MONDAY, from: '07:00' });
    await book(app, { vehicle: 'N-4', reason: 'parts are missing' });
    await setBack(await book(app, { vehicle: 'N-5', day: MONDAY }), '2026-11-25');
    await book(app, { vehicle: 'N-6', day: THURSDAY });
    expect(await list('')).toEqual(['N-6', 'N-3', 'N-2', 'N-1', 'N-4']);
    // At 09:00 UTC it is Thursday 23:00 on Kiritimati and Wednesday 22:00 in Pago Pago.
    await setBack(await book(app, { vehicle: 'N-7', depot: 'west', day: MONDAY }), '2026-11-25');
    expect(await list('depot=west')).toEqual(['N-7']);
    await setBack(await book(app, { vehicle: 'N-8', depot: 'east', day: MONDAY }), '2026-11-25');
    expect(await list('depot=east')).toEqual([]);
  });

  it('is narrowed by days, depot, state and vehicle; of one vehicle it has everything that ever was', async () => {
    const old = await book(app, { vehicle: 'N-1', day: MONDAY });
    await setBack(old, '2026-11-23');
    await close(old, 'done');
    await close(await book(app, { vehicle: 'N-1', reason: 'parts are missing' }), 'cancel');
    await book(app, { vehicle: 'N-1', day: TUESDAY });
    await book(app, { vehicle: 'S-1', day: MONDAY });
    await book(app, { vehicle: 'N-2', depot: 'south', day: '2026-12-02' });
    expect(await list('from=2026-11-23&to=2026-11-30')).toEqual(['N-1', 'S-1', 'N-1']);
    expect(await list('from=2026-11-23&to=2026-11-25')).toEqual(['N-1']);
    expect(await list('depot=south')).toEqual(['S-1', 'N-2']);
    expect(await list('state=done')).toEqual([]);
    expect(await list('state=done&from=2026-11-01')).toEqual(['N-1']);
    const { reply } = await get('/api/bookings?vehicle=N-1');
    expect(bookingList.parse(reply).map(({ state, past }) => `${state} ${past}`)).toEqual([
      'done false',
      'booked false',
      'cancelled false',
    ]);
    expect(await list('vehicle=Q-404')).toEqual([]);
  });

  it.each([
    ['from=Monday', 'from'],
    ['from=2026-12-02&to=2026-12-01', 'to'],
    ['state=open', 'state'],
    ['depot=%3Cscript%3E', 'depot'],
  ])('is refused where the question is wrong: %s', async (query, field) => {
    for (const path of ['/api/bookings', '/api/bookings.csv']) {
      const answer = await app.get(`${path}?${query}`);
      expect([answer.status, (await answer.json()).errors[0].field]).toEqual([400, field]);
    }
  });

  it('is a CSV file too, in which no text runs as a formula', async () => {
    await app.post('/api/vehicles', { id: '=cmd|calc!A1', depot: 'south', platform: 'short' });
    await book(app, { vehicle: '=cmd|calc!A1', day: MONDAY, note: '+1, "quoted"\nand a second line 🚌' });
    await book(app, { vehicle: 'N-1', day: TUESDAY });
    const answer = await app.get('/api/bookings.csv?to=2026-11-30');
    expect(answer.headers.get('content-type')).toBe('text/csv; charset=utf-8');
    expect(answer.headers.get('content-disposition')).toBe(
      'attachment; filename="slipdrift-bookings-2026-11-26.csv"',
    );
    const rows: Record<string, string>[] = parse(await answer.text(), { columns: true });
    expect(rows).toHaveLength(1);
    expect(rows[0]).toMatchObject({
      vehicle: "'=cmd|calc!A1",
      note: '\'+1, "quoted"\nand a second line 🚌',
      depot: 'south',
      day: MONDAY,
      from: '07:00',
      to: '10:00',
      hours: '3',
      bay: '1',
      state: 'booked',
      reason: '',
      starts_at: '2026-11-30T06:00:00.000Z',
    });
  });

  it('is what the inspection list shows beside each vehicle', async () => {
    await gradeVehicle(app.client, 'N-1', 'book');
    const made = await book(app, { vehicle: 'N-1', day: MONDAY, bay: 2, from: '08:30' });
    const { rows } = ranking.parse((await get('/api/ranking?q=N-1')).reply);
    expect(rows[0]?.booking).toEqual({
      id: made.id,
      state: 'booked',
      depot: 'north',
      bay: 2,
      day: MONDAY,
      from: '08:30',
      past: false,
    });
  });
});

it('shows the open booking of a vehicle that has sent no reading yet', async () => {
  const made = await book(app, { vehicle: 'N-2', day: MONDAY });
  const { reply } = await get('/api/vehicles/N-2');
  expect([reply.assessment, reply.booking.id, reply.booking.day]).toEqual([null, made.id, MONDAY]);
  expect((await get('/api/vehicles/N-3')).reply.booking).toBeNull();
});

describe('the bay plan', () => {
  it('has every depot with its days, hours, bays and load, from today for two weeks', async () => {
    await book(app, { vehicle: 'N-1', day: MONDAY });
    await book(app, { vehicle: 'N-2', day: MONDAY, hours: 4.25 });
    const found = await plan('depot=north');
    expect([found.from, found.to, found.depots.length]).toEqual([THURSDAY, '2026-12-09', 1]);
    const [depot] = found.depots;
    expect(depot).toMatchObject({
      id: 'north',
      name: 'Skarrowick',
      time_zone: 'Europe/Vienna',
      today: THURSDAY,
      bays: 2,
    });
    expect(depot?.days).toHaveLength(14);
    const day = (name: string) => depot?.days.find((one) => one.day === name);
    expect(day(MONDAY)).toEqual({
      day: MONDAY,
      bays: 2,
      hours: { from: '07:00', to: '16:00' },
      note: '',
      bay_hours: 18,
      booked_hours: 7.25,
    });
    expect(day('2026-12-05')).toMatchObject({ bays: 1, bay_hours: 6, note: 'extra Saturday' });
    expect(day('2026-12-08')).toMatchObject({ bays: 0, hours: null, bay_hours: 0, note: 'Conception Day' });
    expect(found.bookings.map(({ vehicle, fits, why_not }) => [vehicle, fits, why_not])).toEqual([
      ['N-1', true, null],
      ['N-2', true, null],
    ]);
  });

  it('begins on the day that is today anywhere, and can be of other days, 92 at the most', async () => {
    expect((await plan()).from).toBe('2026-11-25');
    expect((await plan('depot=east')).depots[0]?.today).toBe(THURSDAY);
    expect(await plan('from=2027-01-04&days=7')).toMatchObject({ from: '2027-01-04', to: '2027-01-10' });
    expect(await plan('from=2027-01-04&to=2027-01-04')).toMatchObject({ to: '2027-01-04' });
    for (const [query, field] of [
      ['from=2027-01-04&to=2027-01-03', 'to'],
      ['from=2027-01-04&to=2027-04-06', 'to'],
      ['days=93', 'days'],
      ['depot=nowhere', 'depot'],
    ]) {
      const { status, reply } = await get(`/api/bay-plan?${query}`);
      expect([query, status, reply.errors[0].field]).toEqual([query, 400, field]);
    }
  });

  it('shows what is done beside what is booked, what waits, and what is over and not closed; nothing cancelled', async () => {
    const done = await book(app, { vehicle: 'N-1', day: MONDAY });
    await setBack(done, '2026-11-24');
    await close(done, 'done');
    await setBack(await book(app, { vehicle: 'N-2', day: MONDAY }), '2026-11-24');
    await close(await book(app, { vehicle: 'N-3', day: MONDAY }), 'cancel');
    await close(await book(app, { vehicle: 'N-4', day: MONDAY }), 'put-off');
    await book(app, { vehicle: 'S-1', day: MONDAY });
    const found = await plan('from=2026-11-23&days=8');
    const units = (bookings: readonly Booking[]) => bookings.map(({ vehicle }) => vehicle);
    expect(units(found.bookings)).toEqual(['N-1', 'N-2', 'S-1']);
    expect([units(found.put_off), units(found.past)]).toEqual([['N-4'], ['N-2']]);
    const load = found.depots.find(({ id }) => id === 'north')?.days.find(({ day }) => day === '2026-11-24');
    expect(load?.booked_hours).toBe(6);
    const later = await plan('from=2026-12-07&depot=north');
    expect([units(later.bookings), units(later.put_off), units(later.past)]).toEqual([[], ['N-4'], ['N-2']]);
    expect(units((await plan('depot=south')).put_off)).toEqual([]);
  });

  it('says which bookings do not fit any more, and why, where calendars changed under them', async () => {
    const depot = { id: 'changing', name: 'Changing yard', bays: 2, time_zone: 'Europe/Vienna' };
    await app.post('/api/depots', depot);
    const units = ['C-1', 'C-2', 'C-3', 'C-4', 'C-5'];
    await app.post(
      '/api/vehicles',
      units.map((id) => ({ id, depot: 'changing', platform: 'short' })),
    );
    await book(app, { vehicle: 'C-1', day: MONDAY, bay: 1, from: '07:00' });
    await book(app, { vehicle: 'C-2', day: MONDAY, bay: 2, from: '07:00' });
    await book(app, { vehicle: 'C-3', day: TUESDAY, bay: 1, from: '13:00' });
    await book(app, { vehicle: 'C-4', day: '2026-12-02', bay: 1, from: '07:00' });
    await book(app, { vehicle: 'C-5', day: '2026-12-03', bay: 1, from: '07:00' });
    const reduced = await app.post('/api/depots', {
      ...depot,
      bays: 1,
      special_days: [
        { day: TUESDAY, hours: { from: '07:00', to: '12:00' } },
        { day: '2026-12-02', bays: 0, note: 'stocktaking' },
      ],
    });
    expect(reduced.status).toBe(200);
    await app.post('/api/vehicles', {
      id: 'C-5',
      unavailable: [{ from: '2026-12-03', to: '2026-12-04', note: 'on hire' }],
    });
    const { bookings } = await plan('depot=changing');
    expect(bookings.map(({ vehicle, why_not }) => [vehicle, why_not])).toEqual([
      ['C-1', null],
      ['C-2', 'Changing yard has one bay on Mon 30 Nov, so there is no bay 2.'],
      [
        'C-3',
        '13:00 to 16:00 is outside the hours of Changing yard, which works from 07:00 to 12:00 on Tue 1 Dec.',
      ],
      ['C-4', 'Changing yard is closed on Wed 2 Dec: stocktaking.'],
      ['C-5', 'C-5 cannot be taken on Thu 3 Dec: it is entered as unavailable until Fri 4 Dec (on hire).'],
    ]);
    expect(bookings.map(({ fits }) => fits)).toEqual([true, false, false, false, false]);
  });
});

describe('a vehicle on hold', () => {
  const uncovered = async (query = '', headers?: Record<string, string>) =>
    (await plan(query, headers)).uncovered_holds;
  const nothing = { booking: null, reason: null, why_not: null };

  it('is uncovered until it has a day ahead, worst first, and says since when it is held', async () => {
    const since = new Date('2026-11-24T03:00:00Z');
    await gradeVehicle(app.client, 'N-1', 'hold', { since, rank: 2 });
    await gradeVehicle(app.client, 'S-1', 'hold', { since, rank: 1 });
    await gradeVehicle(app.client, 'N-3', 'book', { since, rank: 3 });
    await gradeVehicle(app.client, 'N-4', 'hold', { since, rank: 4 });
    await app.client`update vehicles set retired = true where unit = 'N-4'`;
    expect(await uncovered()).toEqual([
      { ...nothing, vehicle: 'S-1', depot: 'south', since: since.toISOString() },
      { ...nothing, vehicle: 'N-1', depot: 'north', since: since.toISOString() },
    ]);
    await book(app, { vehicle: 'N-1', day: MONDAY });
    expect((await uncovered()).map(({ vehicle }) => vehicle)).toEqual(['S-1']);
    expect((await uncovered('depot=north')).map(({ vehicle }) => vehicle)).toEqual([]);
    await app.client`update vehicles set retired = false where unit = 'N-4'`;
  });

  it('is uncovered where its booking is put off, cancelled, or over and not closed, with what was said', async () => {
    for (const unit of ['N-1', 'N-2', 'N-3']) await gradeVehicle(app.client, unit, 'hold');
    await close(await book(app, { vehicle: 'N-1', day: MONDAY }), 'put-off');
    await close(await book(app, { vehicle: 'N-2', day: MONDAY }), 'cancel');
    await setBack(await book(app, { vehicle: 'N-3', day: MONDAY }), '2026-11-25');
    const found = await uncovered();
    expect(
      found.map(({ vehicle, booking, reason }) => [vehicle, booking?.state, booking?.past, reason]),
    ).toEqual([
      ['N-1', 'put_off', false, 'said so'],
      ['N-2', undefined, undefined, 'said so'],
      ['N-3', 'booked', true, null],
    ]);
  });

  it('is covered once it was inspected since it is held, and not by an inspection of before', async () => {
    await gradeVehicle(app.client, 'N-1', 'hold', { since: new Date('2026-11-24T03:00:00Z') });
    await gradeVehicle(app.client, 'N-2', 'hold', { since: new Date('2026-11-25T12:00:00Z') });
    for (const vehicle of ['N-1', 'N-2']) {
      const made = await book(app, { vehicle, day: MONDAY, from: '07:00' });
      await setBack(made, '2026-11-25');
      await close(made, 'done');
    }
    expect((await uncovered()).map(({ vehicle }) => vehicle)).toEqual(['N-2']);
    // Held again after the inspection: it is uncovered again.
    await gradeVehicle(app.client, 'N-1', 'hold', { since: new Date('2026-11-26T08:00:00Z') });
    expect((await uncovered()).map(({ vehicle }) => vehicle)).toEqual(['N-1', 'N-2']);
  });

  it('is uncovered again two weeks after an inspection that left it on hold', async () => {
    await gradeVehicle(app.client, 'N-1', 'hold', { since: new Date('2026-10-20T03:00:00Z') });
    const made = await book(app, { vehicle: 'N-1', day: MONDAY, from: '07:00' });
    await setBack(made, '2026-11-13');
    await close(made, 'done');
    expect(await uncovered()).toEqual([]);
    await app.client`
      update bookings set starts_at = starts_at - interval '2 days', ends_at = ends_at - interval '2 days',
        changed_at = changed_at - interval '20 days'`;
    expect((await uncovered()).map(({ vehicle }) => vehicle)).toEqual(['N-1']);
  });

  it('is uncovered where its booking no longer fits the calendar or its own days, and a plan warns of it', async () => {
    for (const unit of ['N-1', 'N-2', 'N-3']) {
      await gradeVehicle(app.client, unit, 'hold');
      await book(app, { vehicle: unit, day: unit === 'N-1' ? TUESDAY : MONDAY });
    }
    expect(await uncovered()).toEqual([]);
    const depot = (await get('/api/depots')).reply.find(({ id }: { id: string }) => id === 'north');
    const closed = { day: TUESDAY, bays: 0, note: 'Stocktaking' };
    const away = [{ from: MONDAY, to: MONDAY, note: 'Lent' }];
    await app.post('/api/depots', { ...depot, special_days: [...depot.special_days, closed] });
    await app.post('/api/vehicles', { id: 'N-2', unavailable: away });
    const found = await uncovered();
    expect(found.map(({ vehicle, booking }) => [vehicle, booking?.state, booking?.past])).toEqual([
      ['N-1', 'booked', false],
      ['N-2', 'booked', false],
    ]);
    expect(found[0]?.why_not).toContain('Stocktaking');
    expect(found[1]?.why_not).toContain('Lent');
    const proposed = planContract.parse(await (await app.post('/api/plan', { depots: ['north'] })).json());
    expect(proposed.uncovered_holds).toEqual(['N-1', 'N-2']);
    expect(proposed.warnings[0]).toContain('Move the bookings that no longer fit');
    expect(proposed.left_out.map(({ reason }) => reason)).toEqual(['misfit_booking', 'misfit_booking']);
    expect(proposed.already_booked.vehicles).toEqual(['N-3']);
    await app.post('/api/depots', depot);
    await app.post('/api/vehicles', { id: 'N-2', unavailable: [] });
  });
});

it('names a depot that nobody knows, wherever it is asked for', async () => {
  for (const path of ['/api/bookings', '/api/bay-plan', '/api/digest']) {
    const { status, reply } = await get(`${path}?depot=nope`);
    expect([path, status, reply.errors?.[0]]).toEqual([
      path,
      400,
      { field: 'depot', message: "No depot 'nope' is known." },
    ]);
  }
});

describe('a planner of one depot', () => {
  const post = async (path: string, body: unknown) => {
    const answer = await fetch(`${app.url}${path}`, {
      method: 'POST',
      headers: north.headers,
      body: JSON.stringify(body),
    });
    return { status: answer.status, reply: await answer.json() };
  };

  it('books the vehicles of that depot into its bays, and no other vehicle and no other bay', async () => {
    expect((await post('/api/bookings', { vehicle: 'N-1', day: MONDAY })).status).toBe(200);
    const foreign = await post('/api/bookings', { vehicle: 'S-1', day: MONDAY, depot: 'north' });
    expect([foreign.status, foreign.reply.errors]).toEqual([
      400,
      [{ field: 'vehicle', message: "No vehicle 'S-1' is known." }],
    ]);
    const elsewhere = await post('/api/bookings', { vehicle: 'N-2', day: MONDAY, depot: 'south' });
    expect([elsewhere.status, elsewhere.reply.code, elsewhere.reply.errors[0].field]).toEqual([
      403,
      'not_allowed',
      'depot',
    ]);
    const many = await post('/api/bookings', [
      { vehicle: 'N-2', day: MONDAY, depot: 'south' },
      { vehicle: 'N-3', day: MONDAY },
    ]);
    expect(many.reply.refused.map((one: { line: number }) => one.line)).toEqual([1]);
    expect(many.reply.booked).toHaveLength(1);
  });

  it('changes neither what others have in those bays, nor what their vehicles have elsewhere, nor takes any away', async () => {
    const guest = await book(app, { vehicle: 'S-1', depot: 'north', day: MONDAY });
    const away = await book(app, { vehicle: 'N-1', depot: 'south', day: MONDAY });
    const foreign = await book(app, { vehicle: 'S-2', day: TUESDAY });
    const own = await book(app, { vehicle: 'N-2', day: TUESDAY });
    const status = async (made: Booking, what: 'move' | 'put-off' | 'cancel' | 'done', body = {}) =>
      (await change(app, north.headers, made, what, { version: 1, reason: 'why not', ...body })).status;
    for (const what of ['move', 'put-off', 'cancel', 'done'] as const) {
      expect([what, await status(guest, what)]).toEqual([what, 403]);
      expect([what, await status(away, what)]).toEqual([what, 403]);
      expect([what, await status(foreign, what)]).toEqual([what, 404]);
    }
    expect(await status(own, 'move', { depot: 'south' })).toBe(403);
    const rows = await app.client`select version from bookings`;
    expect(rows.map(({ version }) => version)).toEqual([1, 1, 1, 1]);
  });

  it('sees what has those bays and where those vehicles go, but not how others are graded', async () => {
    await gradeVehicle(app.client, 'S-1', 'hold', { rank: 1 });
    await gradeVehicle(app.client, 'N-1', 'hold', { rank: 2 });
    await gradeVehicle(app.client, 'N-9', 'hold', { rank: 3 });
    await book(app, { vehicle: 'S-1', depot: 'north', day: MONDAY, from: '07:00' });
    await book(app, { vehicle: 'N-1', depot: 'south', day: MONDAY, from: '10:00' });
    await book(app, { vehicle: 'S-2', day: TUESDAY });
    await book(app, { vehicle: 'S-3', reason: 'parts are missing' });
    expect(await list('', north.headers)).toEqual(['S-1', 'N-1']);
    expect(await list('depot=south', north.headers)).toEqual(['N-1']);
    const csv = await (await fetch(`${app.url}/api/bookings.csv`, { headers: north.headers })).text();
    expect(csv).not.toContain('S-2');
    const found = await plan('', north.headers);
    expect(found.depots.map(({ id }) => id)).toEqual(['north']);
    expect(found.bookings.map(({ vehicle, grade }) => [vehicle, grade])).toEqual([['S-1', null]]);
    expect(found.put_off).toEqual([]);
    expect(found.uncovered_holds.map(({ vehicle }) => vehicle)).toEqual(['N-9']);
    expect((await get('/api/bay-plan?depot=south', north.headers)).status).toBe(403);
    const everybody = await plan();
    expect(everybody.bookings.find(({ vehicle }) => vehicle === 'S-1')?.grade).toBe('hold');
  });
});
