import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import type { Booking } from '#server/contract/bookings.ts';
import { changes as changesSchema } from '#server/contract/changes.ts';
import { vehicleHistory } from '#server/contract/vehicle.ts';
import { book, bookingNow, change, gradeVehicle, setUpBookableFleet } from '#tests/helpers/bookable-fleet.ts';
import { type SignedInPerson, signInAs } from '#tests/helpers/sign-in.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';
import { withTestKey } from '#tests/helpers/test-key.ts';

const MONDAY = '2026-11-30';
const TUESDAY = '2026-12-01';

let app: TestApp;
let perrin: SignedInPerson;
beforeAll(async () => {
  app = await startApp({}, bookingNow);
  await setUpBookableFleet(app);
  perrin = await signInAs(app, 'planner', { name: 'Perrin Aldous' });
  await gradeVehicle(app.client, 'N-9', 'hold');
});
afterAll(() => app?.stop());
beforeEach(async () => {
  await app.client`truncate bookings restart identity`;
});

const move = (made: Pick<Booking, 'id' | 'version'>, body: Record<string, unknown>) =>
  change(app, perrin.headers, made, 'move', { version: made.version, ...body });
const placeOf = ({ booking, reply }: Awaited<ReturnType<typeof move>>) =>
  booking === null ? reply : [booking.depot, booking.day, booking.bay, booking.from, booking.hours].join(' ');

/** As if it had been booked for that day: nothing can be booked in the past. */
async function setBack({ id }: Booking, day: string): Promise<void> {
  await app.client`
    update bookings set day = ${day}, starts_at = starts_at + (${day}::date - day) * interval '1 day',
      ends_at = ends_at + (${day}::date - day) * interval '1 day' where id = ${id}`;
}

/** As if it had begun at that moment of today. */
async function begin({ id }: Booking, at: string): Promise<void> {
  await app.client`
    update bookings set starts_at = ${at}, ends_at = ${at}::timestamptz + (ends_at - starts_at) where id = ${id}`;
}

describe('a booking that has begun', () => {
  const TODAY = '2026-11-26';

  it('keeps its start and its bay when it is made longer or shorter, also where both are named', async () => {
    const made = await book(app, { vehicle: 'N-1', day: TODAY, bay: 2, from: '10:15' });
    await begin(made, '2026-11-26T07:15:00Z');
    const longer = await move(made, { hours: 5 });
    expect(placeOf(longer)).toBe('north 2026-11-26 2 08:15 5');
    const named = await move({ ...made, version: 2 }, { day: TODAY, bay: 2, from: '08:15', hours: 2 });
    expect(placeOf(named)).toBe('north 2026-11-26 2 08:15 2');
    const noted = await move({ ...made, version: 3 }, { note: 'seal is leaking', hours: 3 });
    expect(placeOf(noted)).toBe('north 2026-11-26 2 08:15 3');
  });

  it('is not made so long that it meets the next one or closing, and is not put elsewhere for it', async () => {
    const made = await book(app, { vehicle: 'N-1', day: TODAY, bay: 1, from: '10:15' });
    await begin(made, '2026-11-26T07:15:00Z');
    await book(app, { vehicle: 'N-2', day: TODAY, bay: 1, from: '12:00' });
    const met = await move(made, { hours: 4 });
    expect([met.status, met.reply.errors]).toEqual([
      409,
      [
        {
          field: 'hours',
          message:
            'Bay 1 of Skarrowick is taken on Thu 26 Nov at 08:15 for part of the 4 h: N-2 12:00 to 15:00.',
        },
      ],
    ]);
    const late = await move(made, { hours: 8 });
    expect([late.status, late.reply.errors[0].message]).toEqual([
      400,
      '08:15 to 16:15 is outside the hours of Skarrowick, which works from 07:00 to 16:00 on Thu 26 Nov.',
    ]);
    expect(placeOf(await move(made, { hours: 3.75 }))).toBe('north 2026-11-26 1 08:15 3.75');
  });

  it('gets no other start that is past, and may be moved ahead', async () => {
    const made = await book(app, { vehicle: 'N-1', day: TODAY, bay: 1, from: '10:15' });
    await begin(made, '2026-11-26T07:15:00Z');
    for (const body of [{ from: '08:00' }, { from: '08:15', bay: 2 }, { from: '08:15', depot: 'south' }]) {
      const { status, reply } = await move(made, body);
      expect([body, status, reply.errors[0].field]).toEqual([body, 400, 'from']);
    }
    expect(placeOf(await move(made, { from: '11:00' }))).toBe('north 2026-11-26 1 11:00 3');
  });
});

describe('a booking without a day', () => {
  it('keeps its length while it waits', async () => {
    const made = await book(app, { vehicle: 'N-1', day: MONDAY, hours: 7.5 });
    const off = await change(app, perrin.headers, made, 'put-off', { version: 1, reason: 'no driver' });
    expect(off.booking?.hours).toBe(7.5);
    expect(placeOf(await move({ ...made, version: 2 }, { day: TUESDAY }))).toBe(
      'north 2026-12-01 1 07:00 7.5',
    );
    const waits = await book(app, { vehicle: 'N-2', reason: 'parts are missing', hours: 4.25 });
    expect(waits.hours).toBe(4.25);
    expect(placeOf(await move(waits, { day: TUESDAY }))).toBe('north 2026-12-01 2 07:00 4.25');
  });

  it('may be given another depot, length or note, and waits on', async () => {
    const made = await book(app, { vehicle: 'N-1', reason: 'parts are missing', hours: 4 });
    const there = await move(made, { depot: 'south' });
    expect(there.booking).toMatchObject({
      state: 'put_off',
      depot: 'south',
      day: null,
      hours: 4,
      reason: 'parts are missing',
      version: 2,
    });
    expect((await move({ ...made, version: 2 }, { hours: 6 })).booking).toMatchObject({
      state: 'put_off',
      hours: 6,
      version: 3,
    });
    const same = await move({ ...made, version: 3 }, { depot: 'south', hours: 6 });
    expect(same.booking?.version).toBe(3);
    for (const [body, field] of [
      [{ depot: 'nowhere' }, 'depot'],
      [{ depot: 'north', from: '08:00' }, 'day'],
    ] as const) {
      const { status, reply } = await move({ ...made, version: 3 }, body);
      expect([status, reply.errors[0].field]).toEqual([400, field]);
    }
    expect(placeOf(await move({ ...made, version: 3 }, { day: MONDAY }))).toBe('south 2026-11-30 1 07:00 6');
    const { events } = vehicleHistory.parse(await (await app.get('/api/vehicles/N-1/history')).json());
    expect(events.slice(1, 3).map(({ text }) => text)).toEqual([
      'Booking without a day made 6 h long, by Perrin Aldous',
      'Booking without a day moved from Skarrowick to Harrowmead, by Perrin Aldous',
    ]);
  });

  it('is given no depot for which one does not work', async () => {
    const bound = await signInAs(app, 'planner', { depots: ['north'] });
    const made = await book(app, { vehicle: 'N-1', reason: 'parts are missing' });
    const refused = await change(app, bound.headers, made, 'move', { version: 1, depot: 'south' });
    expect([refused.status, refused.reply.errors[0].field]).toEqual([403, 'depot']);
    const [row] = await app.client`select depot, version from bookings where id = ${made.id}`;
    expect(row).toEqual({ depot: 'north', version: 1 });
  });
});

describe('a booking that is moved', () => {
  it('keeps what is left out where it is free, and has what is named', async () => {
    const made = await book(app, {
      vehicle: 'N-1',
      day: MONDAY,
      bay: 2,
      from: '09:30',
      note: 'key is inside',
    });
    const moved = await move(made, { day: TUESDAY });
    expect(placeOf(moved)).toBe('north 2026-12-01 2 09:30 3');
    expect(moved.booking).toMatchObject({
      version: 2,
      note: 'key is inside',
      changed_by: 'Perrin Aldous',
      created_by: 'set-up key',
      starts_at: '2026-12-01T08:30:00.000Z',
    });
    expect(placeOf(await move({ ...made, version: 2 }, { bay: 1, from: '10:15', hours: 1.5 }))).toBe(
      'north 2026-12-01 1 10:15 1.5',
    );
    expect(placeOf(await move({ ...made, version: 3 }, { depot: 'south' }))).toBe(
      'south 2026-12-01 1 10:15 1.5',
    );
  });

  it('is looked a place for where its own is taken: first at its time, then in its bay, then any', async () => {
    const made = await book(app, { vehicle: 'N-1', day: MONDAY, bay: 1, from: '08:00' });
    await book(app, { vehicle: 'N-2', day: TUESDAY, bay: 1, from: '07:00' });
    const first = await move(made, { day: TUESDAY });
    expect(placeOf(first)).toBe('north 2026-12-01 2 08:00 3');
    await book(app, { vehicle: 'N-3', day: '2026-12-02', bay: 1, from: '07:00' });
    await book(app, { vehicle: 'N-4', day: '2026-12-02', bay: 2, from: '07:00', hours: 9 });
    expect(placeOf(await move({ ...made, version: 2 }, { day: '2026-12-02' }))).toBe(
      'north 2026-12-02 1 10:00 3',
    );
    // Its time is over today.
    expect(placeOf(await move({ ...made, version: 3 }, { day: '2026-11-26', bay: 2 }))).toBe(
      'north 2026-11-26 2 10:15 3',
    );
  });

  it('is refused the place that is named where that is taken, and stays where it was', async () => {
    const made = await book(app, { vehicle: 'N-1', day: MONDAY, bay: 1, from: '08:00' });
    await book(app, { vehicle: 'N-2', day: TUESDAY, bay: 1, from: '07:00' });
    const refused = await move(made, { day: TUESDAY, bay: 1, from: '09:45' });
    expect([refused.status, refused.reply.detail]).toEqual([
      409,
      'Bay 1 of Skarrowick is taken on Tue 1 Dec at 09:45 for part of the 3 h: N-2 07:00 to 10:00. Nothing was changed.',
    ]);
    const [row] = await app.client`select version, day from bookings where id = ${made.id}`;
    expect(row).toEqual({ version: 1, day: MONDAY });
  });

  it('does not stand in its own way', async () => {
    const made = await book(app, { vehicle: 'S-1', day: MONDAY, from: '08:00' });
    expect(placeOf(await move(made, { from: '09:00' }))).toBe('south 2026-11-30 1 09:00 3');
    expect(placeOf(await move({ ...made, version: 2 }, { hours: 5 }))).toBe('south 2026-11-30 1 09:00 5');
  });

  it('is held to the calendar like a new one', async () => {
    await app.post('/api/vehicles', {
      id: 'N-5',
      unavailable: [{ from: TUESDAY, to: TUESDAY, note: 'on hire' }],
    });
    const made = await book(app, { vehicle: 'N-5', day: MONDAY });
    for (const [body, field] of [
      [{ day: '2026-11-25' }, 'day'],
      [{ day: '2026-11-28' }, 'day'],
      [{ day: TUESDAY }, 'day'],
      [{ bay: 3 }, 'bay'],
      [{ from: '15:00' }, 'from'],
      [{ from: '07:20' }, 'from'],
      [{ hours: 9.5 }, 'hours'],
      [{ depot: 'bare' }, 'depot'],
      [{ depot: 'nowhere' }, 'depot'],
    ] as const) {
      const { status, reply } = await move(made, body);
      expect([body, status, reply.errors[0].field]).toEqual([body, 400, field]);
    }
  });

  it('gets a day where it was put off, for as long as its platform takes, and loses the reason why it waited', async () => {
    const made = await book(app, { vehicle: 'N-1', reason: 'parts are missing' });
    const without = await move(made, { bay: 1 });
    expect([without.status, without.reply.errors]).toEqual([
      400,
      [{ field: 'day', message: 'The booking of N-1 is put off and has no day: name one.' }],
    ]);
    const given = await move(made, { day: MONDAY });
    expect(placeOf(given)).toBe('north 2026-11-30 1 07:00 3');
    expect(given.booking).toMatchObject({ state: 'booked', reason: null });
  });

  it('may have its note changed though its day is past, and a past one may be moved ahead', async () => {
    const made = await book(app, { vehicle: 'N-1', day: MONDAY });
    await setBack(made, '2026-11-23');
    const noted = await move(made, { note: 'did not come\nwas on the road' });
    expect(noted.booking).toMatchObject({ past: true, note: 'did not come\nwas on the road', version: 2 });
    const same = await move({ ...made, version: 2 }, { bay: 1, note: 'did not come\nwas on the road' });
    expect(same.booking?.version).toBe(2);
    const cleared = await move({ ...made, version: 2 }, { note: null });
    expect(cleared.booking).toMatchObject({ note: null, version: 3 });
    expect((await move({ ...made, version: 3 }, { day: TUESDAY })).booking).toMatchObject({
      past: false,
      day: TUESDAY,
    });
  });

  it('is refused where somebody changed it meanwhile, and told who, when and to what', async () => {
    const made = await book(app, { vehicle: 'N-1', day: MONDAY });
    await move(made, { day: TUESDAY, bay: 2, from: '11:00' });
    const stale = await change(app, withTestKey, made, 'move', { version: 1, day: '2026-12-02' });
    expect([stale.status, stale.reply.code, stale.reply.errors[0].field]).toEqual([
      409,
      'conflict',
      'version',
    ]);
    expect(stale.reply.detail).toMatch(
      /^Perrin Aldous changed this booking of N-1 meanwhile \(Thu 26 Nov 2026, 10:\d\d\): it is now at Skarrowick, bay 2, Tue 1 Dec 11:00\. Look at it again\. Nothing was changed\.$/,
    );
    for (const what of ['put-off', 'cancel', 'done'] as const)
      expect((await change(app, withTestKey, made, what, { version: 1, reason: 'why not' })).status).toBe(
        409,
      );
  });
});

describe('a booking', () => {
  it('that is put off waits without a day, says why, and leaves its bay to others', async () => {
    const made = await book(app, { vehicle: 'S-1', day: MONDAY, hours: 9 });
    const off = await change(app, perrin.headers, made, 'put-off', {
      version: 1,
      reason: 'no driver\nto bring it',
    });
    expect(off.booking).toMatchObject({
      state: 'put_off',
      depot: 'south',
      bay: null,
      day: null,
      from: null,
      starts_at: null,
      reason: 'no driver\nto bring it',
    });
    await book(app, { vehicle: 'S-2', day: MONDAY, hours: 9 });
    const twice = await change(app, perrin.headers, made, 'put-off', { version: 2, reason: 'still none' });
    expect([twice.status, twice.reply.detail]).toEqual([
      409,
      'This booking of S-1 is put off already. Nothing was changed.',
    ]);
  });

  it('that is cancelled is closed: nothing changes it any more, and the vehicle can be booked anew', async () => {
    const made = await book(app, { vehicle: 'S-1', day: MONDAY, hours: 9 });
    const gone = await change(app, perrin.headers, made, 'cancel', { version: 1, reason: 'sold' });
    expect(gone.booking).toMatchObject({ state: 'cancelled', day: MONDAY, bay: 1, reason: 'sold' });
    for (const [what, body] of [
      ['move', { day: TUESDAY }],
      ['put-off', { reason: 'why not' }],
      ['cancel', { reason: 'once more' }],
      ['done', {}],
    ] as const) {
      const { status, reply } = await change(app, perrin.headers, made, what, { version: 2, ...body });
      expect([what, status, reply.errors[0].field]).toEqual([what, 409, 'state']);
      expect(reply.detail).toMatch(
        /is closed: Perrin Aldous cancelled it \(Thu 26 Nov 2026, 10:\d\d\)\. Book the vehicle anew/,
      );
    }
    await book(app, { vehicle: 'S-1', day: MONDAY, hours: 9 });
  });

  it('is done once it has begun, and not before, nor without a day', async () => {
    const made = await book(app, { vehicle: 'N-1', day: MONDAY });
    const early = await change(app, perrin.headers, made, 'done', { version: 1 });
    expect([early.status, early.reply.detail]).toEqual([
      409,
      'The inspection of N-1 has not begun: it is booked for Mon 30 Nov 07:00. Nothing was changed.',
    ]);
    await app.client`update bookings set starts_at = ${bookingNow} where id = ${made.id}`;
    const done = await change(app, perrin.headers, made, 'done', { version: 1, reason: 'seal changed' });
    expect(done.booking).toMatchObject({ state: 'done', reason: 'seal changed', past: false, version: 2 });
    const again = await change(app, perrin.headers, made, 'cancel', { version: 2, reason: 'by mistake' });
    expect(again.reply.detail).toContain('is closed: Perrin Aldous said that it is done');
    const waiting = await book(app, { vehicle: 'N-2', reason: 'parts are missing' });
    const no = await change(app, perrin.headers, waiting, 'done', { version: 1 });
    expect([no.status, no.reply.errors[0].field]).toEqual([409, 'state']);
  });

  it.each(['put-off', 'cancel'] as const)(
    'of a vehicle on hold is not simply %s: whoever leaves it without a day has to say so',
    async (what) => {
      const made = await book(app, { vehicle: 'N-9', day: MONDAY });
      const body = { version: 1, reason: 'bay is flooded' };
      const refused = await change(app, perrin.headers, made, what, body);
      expect([refused.status, refused.reply.errors[0].field]).toEqual([409, 'leaves_hold']);
      expect(refused.reply.detail).toContain(
        'N-9 is graded hold and must not be dispatched before inspection',
      );
      const [row] = await app.client`select state, version from bookings where id = ${made.id}`;
      expect(row).toEqual({ state: 'booked', version: 1 });
      const said = await change(app, perrin.headers, made, what, { ...body, leaves_hold: true });
      expect(said.status).toBe(200);
    },
  );

  it.each([
    ['move', { day: TUESDAY }, 'version'],
    ['move', { version: 0, day: TUESDAY }, 'version'],
    ['move', { version: 1, day: 'Tuesday' }, 'day'],
    ['move', { version: 1, hours: 0.3 }, 'hours'],
    ['put-off', { version: 1 }, 'reason'],
    ['put-off', { version: 1, reason: ' a ' }, 'reason'],
    ['cancel', { version: 1, reason: '' }, 'reason'],
    ['cancel', { version: 1, reason: 'why not', leaves_hold: 'yes' }, 'leaves_hold'],
    ['done', { reason: 'fine' }, 'version'],
  ] as const)('is not changed by a body that is wrong: %s %j', async (what, body, field) => {
    const made = await book(app, { vehicle: 'N-1', day: MONDAY });
    const { status, reply } = await change(app, perrin.headers, made, what, body);
    expect([status, reply.errors[0].field]).toEqual([400, field]);
  });

  it('that is not there is 404, and an id that is none 400', async () => {
    const at = (id: unknown) => change(app, withTestKey, { id: id as number }, 'done', { version: 1 });
    expect((await at(4711)).reply).toMatchObject({
      code: 'not_found',
      detail: expect.stringContaining('4711'),
    });
    for (const id of ['x', '0', '-1', '1.5', '99999999999999999999']) expect((await at(id)).status).toBe(400);
  });
});

describe('what becomes of a booking', () => {
  it('stands in the history of its vehicle, newest first, with who did it', async () => {
    const as = (made: Booking, version: number, what: 'move' | 'put-off' | 'cancel' | 'done', body: object) =>
      change(app, perrin.headers, made, what, { version, ...body });
    const made = await book(
      app,
      { vehicle: 'N-6', day: MONDAY, bay: 2, from: '07:00', note: 'two\nlines' },
      perrin.headers,
    );
    await as(made, 1, 'move', { day: '2027-01-11', from: '08:15', reason: 'driver is ill' });
    await as(made, 2, 'move', { depot: 'south' });
    await as(made, 3, 'move', { note: 'ask for Jo' });
    await as(made, 4, 'move', { hours: 4 });
    await as(made, 5, 'put-off', { reason: 'bay is\nflooded' });
    await as(made, 6, 'move', { day: TUESDAY, bay: 1, from: '09:00', depot: 'north' });
    await app.client`update bookings set starts_at = ${bookingNow}`;
    await as(made, 7, 'done', { reason: 'seal changed' });
    const next = await book(app, { vehicle: 'N-6', reason: 'a second look' }, perrin.headers);
    await as(next, 1, 'cancel', { reason: 'not needed' });
    const { events } = vehicleHistory.parse(await (await app.get('/api/vehicles/N-6/history')).json());
    expect(events.map(({ kind, text }) => `${kind}: ${text}`)).toEqual([
      'booking_cancelled: Booking without a day cancelled by Perrin Aldous: not needed',
      'booked: Booking without a day at Skarrowick, by Perrin Aldous: a second look',
      'booking_done: Inspected at Skarrowick, bay 1, Tue 1 Dec 10:00; closed by Perrin Aldous: seal changed',
      'booking_moved: Booking given a day: Skarrowick, bay 1, Tue 1 Dec 09:00, by Perrin Aldous',
      'booking_put_off: Booking of Mon 11 Jan 2027 08:15 at Harrowmead put off by Perrin Aldous: bay is flooded',
      'booking_moved: Booking of Mon 11 Jan 2027 08:15 made 4 h long, by Perrin Aldous',
      'booking_moved: Note of the booking changed by Perrin Aldous: ask for Jo',
      'booking_moved: Booking moved from Skarrowick, bay 2, Mon 11 Jan 2027 08:15 to Harrowmead, bay 1, Mon 11 Jan 2027 08:15, by Perrin Aldous',
      'booking_moved: Booking moved from Mon 30 Nov 07:00, bay 2 to Mon 11 Jan 2027 08:15, bay 2, by Perrin Aldous: driver is ill',
      'booked: Booked at Skarrowick, bay 2, Mon 30 Nov 07:00, by Perrin Aldous: two lines',
    ]);
    expect(new Set(events.map(({ at }) => at.slice(0, 10)))).toEqual(new Set(['2026-11-26']));
  });

  it('stands in the list of changes, whole at first and then with what differs and where it was', async () => {
    const made = await book(app, { vehicle: 'N-7', day: MONDAY, note: 'x' }, perrin.headers);
    await change(app, perrin.headers, made, 'move', { version: 1, day: TUESDAY });
    const admin = await signInAs(app, 'admin');
    const answer = await fetch(`${app.url}/api/changes?subject=vehicle&subject_id=N-7&limit=2`, {
      headers: admin.headers,
    });
    const { rows } = changesSchema.parse(await answer.json());
    expect(
      rows.map(({ actor, action, before, after }) => ({ by: actor.name, action, before, after })),
    ).toEqual([
      {
        by: 'Perrin Aldous',
        action: 'booking_moved',
        before: { booking: made.id, depot: 'north', bay: 1, day: MONDAY, from: '07:00', reason: null },
        after: { booking: made.id, depot: 'north', bay: 1, day: TUESDAY, from: '07:00', reason: null },
      },
      {
        by: 'Perrin Aldous',
        action: 'booked',
        before: null,
        after: {
          booking: made.id,
          depot: 'north',
          bay: 1,
          day: MONDAY,
          from: '07:00',
          hours: 3,
          state: 'booked',
          note: 'x',
          reason: null,
        },
      },
    ]);
  });

  it('is not noted where the booking is refused', async () => {
    const count = async () => (await app.client`select count(*) as n from changes`)[0]?.n;
    const made = await book(app, { vehicle: 'N-1', day: MONDAY });
    const before = await count();
    await app.post('/api/bookings', { vehicle: 'N-1', day: TUESDAY });
    await move(made, { day: '2026-11-28' });
    await move({ ...made, version: 9 }, { day: TUESDAY });
    expect(await count()).toBe(before);
  });

  it('is an end with its vehicle: who retires one cancels what is open, in the same step', async () => {
    const ahead = await book(app, { vehicle: 'N-10', day: MONDAY });
    const waiting = await book(app, { vehicle: 'N-11', reason: 'parts are missing' });
    await app.post('/api/vehicles', [
      { id: 'N-10', retired: true },
      { id: 'N-11', retired: true },
      { id: 'N-12', retired: true },
    ]);
    const rows = await app.client`select state, day, reason, version, changed_by from bookings order by id`;
    const closed = { state: 'cancelled', reason: 'vehicle retired', version: 2, changed_by: 'set-up key' };
    expect([...rows]).toEqual([
      { ...closed, day: MONDAY },
      { ...closed, day: null },
    ]);
    const { events } = vehicleHistory.parse(await (await app.get('/api/vehicles/N-10/history')).json());
    expect(events[0]?.text).toBe(
      'Booking of Mon 30 Nov 07:00 at Skarrowick cancelled by set-up key: vehicle retired',
    );
    expect((await move(ahead, { day: TUESDAY })).status).toBe(409);
    expect((await move(waiting, { day: TUESDAY })).status).toBe(409);
    // Who is told of one thing that is not theirs has changed nothing at all.
    const bound = await signInAs(app, 'planner', { depots: ['north'] });
    const kept = await book(app, { vehicle: 'N-8', day: MONDAY });
    const answer = await fetch(`${app.url}/api/vehicles`, {
      method: 'POST',
      headers: bound.headers,
      body: JSON.stringify([
        { id: 'N-8', retired: true },
        { id: 'S-1', retired: true },
      ]),
    });
    expect(answer.status).toBe(403);
    const [row] = await app.client`select state from bookings where id = ${kept.id}`;
    expect(row?.state).toBe('booked');
  });
});
