import { setTimeout as sleep } from 'node:timers/promises';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { openDatabase } from '#db/client.ts';
import { bookingsReply } from '#server/contract/bookings.ts';
import { problem } from '#server/contract/problems.ts';
import { book, bookingNow, setUpBookableFleet } from '#tests/helpers/bookable-fleet.ts';
import { signInAs } from '#tests/helpers/sign-in.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';

const MONDAY = '2026-11-30';

let app: TestApp;
beforeAll(async () => {
  app = await startApp({}, bookingNow);
  await setUpBookableFleet(app);
  await app.post('/api/depots', [
    { id: 'saturdays', name: 'Old tram shed', bays: 0, special_days: [{ day: '2026-12-05', bays: 1 }] },
    // Where it is tomorrow already, and where it is not yet today.
    { id: 'east', name: 'East end', bays: 1, time_zone: 'Pacific/Kiritimati' },
    { id: 'west', name: 'West end', bays: 1, time_zone: 'Pacific/Pago_Pago' },
    {
      id: 'nights',
      name: 'Night yard',
      bays: 1,
      time_zone: 'Europe/Vienna',
      week: {
        ...Object.fromEntries(
          ['monday', 'tuesday', 'wednesday', 'thursday', 'friday', 'saturday'].map((day) => [day, null]),
        ),
        sunday: { from: '00:00', to: '24:00' },
      },
    },
  ]);
  await app.post('/api/vehicles', [
    { id: 'R-1', depot: 'north', retired: true },
    { id: 'L-1', depot: 'north', platform: 'long' },
    { id: 'H-1' },
    {
      id: 'A-1',
      depot: 'north',
      unavailable: [
        { from: '2026-11-30', to: '2026-12-02', note: 'on hire' },
        { from: '2026-12-07', to: '2026-12-07' },
      ],
    },
  ]);
});
afterAll(() => app?.stop());
beforeEach(async () => {
  await app.client`truncate bookings restart identity`;
});

/** One alone that is refused: its status, and the one field and sentence. The server's clock goes on meanwhile. */
async function refusal(request: unknown, headers: Record<string, string> = {}) {
  const answer = await app.post('/api/bookings', request, headers);
  const said = problem.parse(await answer.json());
  expect(said.errors).toHaveLength(1);
  expect(said.detail).toBe(`${said.errors[0]?.message} Nothing was changed.`);
  const message = said.errors[0]?.message.replace(/it is (10|22):0\d/, 'it is $1:00');
  return [answer.status, said.errors[0]?.field, message];
}

describe('a booking', () => {
  it('takes the place that is asked for, for as long as an inspection of its platform takes', async () => {
    const made = await book(app, {
      vehicle: 'N-1',
      day: MONDAY,
      bay: 2,
      from: '08:15',
      note: ' bring the key\r\nto bay 2 ',
    });
    expect(made).toMatchObject({
      vehicle: 'N-1',
      state: 'booked',
      depot: 'north',
      bay: 2,
      day: MONDAY,
      from: '08:15',
      to: '11:15',
      hours: 3,
      // Vienna is an hour ahead of UTC in winter.
      starts_at: '2026-11-30T07:15:00.000Z',
      ends_at: '2026-11-30T10:15:00.000Z',
      note: 'bring the key\nto bay 2',
      reason: null,
      platform: 'short',
      version: 1,
      past: false,
      created_by: 'set-up key',
      changed_by: 'set-up key',
    });
  });

  it('goes to the first gap of the day where neither bay nor time is named, today not before now', async () => {
    const places = [];
    for (const vehicle of ['N-1', 'N-2', 'N-3', 'N-4'])
      places.push(await book(app, { vehicle, day: MONDAY, hours: 4 }));
    expect(places.map(({ bay, from }) => `${bay} ${from}`)).toEqual([
      '1 07:00',
      '2 07:00',
      '1 11:00',
      '2 11:00',
    ]);
    const today = await book(app, { vehicle: 'N-5', day: '2026-11-26' });
    expect(today.from).toBe('10:15');
  });

  it('finds the first time of a bay that is named, and the first bay at a time that is named', async () => {
    await book(app, { vehicle: 'N-1', day: MONDAY, bay: 1, from: '07:00' });
    const bay = await book(app, { vehicle: 'N-2', day: MONDAY, bay: 1 });
    expect([bay.bay, bay.from]).toEqual([1, '10:00']);
    const time = await book(app, { vehicle: 'N-3', day: MONDAY, from: '07:30' });
    expect([time.bay, time.from]).toEqual([2, '07:30']);
  });

  it('may follow another to the minute, and go to another depot than that of the vehicle', async () => {
    await book(app, { vehicle: 'S-1', day: MONDAY, from: '07:00' });
    const next = await book(app, { vehicle: 'N-1', depot: 'south', day: MONDAY, from: '10:00' });
    expect(next).toMatchObject({ depot: 'south', bay: 1, to: '13:00' });
  });

  it('without a day waits with its reason', async () => {
    const made = await book(app, {
      vehicle: 'N-1',
      reason: 'no bay before the new year',
      note: 'rear axle too',
    });
    expect(made).toMatchObject({
      state: 'put_off',
      depot: 'north',
      bay: null,
      day: null,
      from: null,
      to: null,
      hours: null,
      starts_at: null,
      past: false,
      reason: 'no bay before the new year',
      note: 'rear axle too',
    });
  });

  it('goes by the hours and bays of a special day', async () => {
    const short = await book(app, { vehicle: 'N-1', day: '2026-12-24', from: '09:00' });
    expect(short.to).toBe('12:00');
    const saturday = await book(app, { vehicle: 'N-2', day: '2026-12-05' });
    expect([saturday.bay, saturday.from]).toEqual([1, '08:00']);
    // It has a bay then, but nobody has given that Saturday hours.
    expect((await refusal({ vehicle: 'N-3', depot: 'saturdays', day: '2026-12-05' }))[2]).toBe(
      'Sat 5 Dec is a Saturday, on which Old tram shed does not work.',
    );
    expect((await refusal({ vehicle: 'N-3', depot: 'saturdays', day: MONDAY }))[2]).toBe(
      'Old tram shed has no bays, so nothing can be booked there.',
    );
  });

  it('ends at 24:00, and is counted in real hours on the night on which clocks go forward', async () => {
    const late = await book(app, { vehicle: 'N-1', depot: 'nights', day: '2026-11-29', from: '21:00' });
    expect([late.to, late.day, late.hours]).toEqual(['24:00', '2026-11-29', 3]);
    const spring = await book(app, { vehicle: 'N-2', depot: 'nights', day: '2027-03-28', from: '01:00' });
    expect([spring.to, spring.hours]).toEqual(['05:00', 3]);
  });
});

describe('a booking that is wrong in itself is refused with 400 and one sentence', () => {
  it.each([
    [{ vehicle: 'Q-404', day: MONDAY }, 'vehicle', "No vehicle 'Q-404' is known."],
    [{ vehicle: 'Q-404' }, 'vehicle', "No vehicle 'Q-404' is known."],
    [{ vehicle: 'N-1' }, 'reason', 'N-1 is to wait for a day: say why it waits, or name its day.'],
    [{ vehicle: 'R-1', day: MONDAY }, 'vehicle', 'Vehicle R-1 is retired.'],
    [
      { vehicle: 'H-1', day: MONDAY },
      'depot',
      'H-1 belongs to no depot: say at which one it is to be inspected.',
    ],
    [{ vehicle: 'N-1', depot: 'nowhere', day: MONDAY }, 'depot', "No depot 'nowhere' is known."],
    [
      { vehicle: 'N-1', depot: 'bare', day: MONDAY },
      'depot',
      'Bare yard has no bays, so nothing can be booked there.',
    ],
    [{ vehicle: 'N-1', day: '2026-11-25' }, 'day', 'Wed 25 Nov is past: at Skarrowick it is Thu 26 Nov.'],
    [
      { vehicle: 'N-1', day: '2026-11-26', from: '09:45' },
      'from',
      '09:45 has passed already: at Skarrowick it is 10:00 on Thu 26 Nov.',
    ],
    [
      { vehicle: 'N-1', depot: 'east', day: '2026-11-25' },
      'day',
      'Wed 25 Nov is past: at East end it is Thu 26 Nov.',
    ],
    [
      { vehicle: 'N-1', depot: 'west', day: '2026-11-25' },
      'day',
      'No 3 h are left on Wed 25 Nov: at West end it is 22:00, and it closes at 16:00.',
    ],
    [
      { vehicle: 'N-1', day: '2027-11-29' },
      'day',
      'Mon 29 Nov 2027 is more than 366 days ahead; the last day that can be booked is Sat 27 Nov 2027.',
    ],
    [
      { vehicle: 'N-1', day: '2026-11-28' },
      'day',
      'Sat 28 Nov is a Saturday, on which Skarrowick does not work.',
    ],
    [{ vehicle: 'N-1', day: '2026-12-08' }, 'day', 'Skarrowick is closed on Tue 8 Dec: Conception Day.'],
    [
      { vehicle: 'N-1', day: MONDAY, from: '06:45' },
      'from',
      '06:45 to 09:45 is outside the hours of Skarrowick, which works from 07:00 to 16:00 on Mon 30 Nov.',
    ],
    [
      { vehicle: 'N-1', day: MONDAY, from: '13:15' },
      'from',
      '13:15 to 16:15 is outside the hours of Skarrowick, which works from 07:00 to 16:00 on Mon 30 Nov.',
    ],
    [
      { vehicle: 'N-1', day: MONDAY, from: '24:00' },
      'from',
      '00:00 to 03:00 is outside the hours of Skarrowick, which works from 07:00 to 16:00 on Mon 30 Nov.',
    ],
    [
      { vehicle: 'N-1', day: MONDAY, from: '07:05' },
      'from',
      '07:05 is not on a quarter of an hour, which is :00, :15, :30 or :45.',
    ],
    [
      { vehicle: 'N-1', day: '2026-12-05', bay: 2 },
      'bay',
      'Skarrowick has one bay on Sat 5 Dec, so there is no bay 2.',
    ],
    [
      { vehicle: 'N-1', day: MONDAY, bay: 3 },
      'bay',
      'Skarrowick has 2 bays on Mon 30 Nov, so there is no bay 3.',
    ],
    [
      { vehicle: 'L-1', day: MONDAY },
      'hours',
      '10 h are longer than the day: Skarrowick works from 07:00 to 16:00 on Mon 30 Nov.',
    ],
    [
      { vehicle: 'N-1', day: '2026-11-26', hours: 6 },
      'day',
      'No 6 h are left on Thu 26 Nov: at Skarrowick it is 10:00, and it closes at 16:00.',
    ],
    [
      { vehicle: 'A-1', day: '2026-12-01' },
      'day',
      'A-1 cannot be taken on Tue 1 Dec: it is entered as unavailable until Wed 2 Dec (on hire).',
    ],
    [
      { vehicle: 'A-1', day: '2026-12-07' },
      'day',
      'A-1 cannot be taken on Mon 7 Dec: it is entered as unavailable that day.',
    ],
    [
      { vehicle: 'N-1', depot: 'nights', day: '2027-03-28', from: '02:30' },
      'from',
      'There is no 02:30 at Night yard on Sun 28 Mar 2027: the clocks go forward past it.',
    ],
  ])('%j', async (request, field, message) => {
    expect(await refusal(request)).toEqual([400, field, message]);
    expect(await app.client`select from bookings`).toHaveLength(0);
  });

  it.each([
    [
      { vehicle: 'N-1', reason: 'parts are missing', bay: 1 },
      'bay',
      'is part of a day: name the day too, or leave it out',
    ],
    [
      { vehicle: 'N-1', reason: 'parts are missing', from: '08:00' },
      'from',
      'is part of a day: name the day too, or leave it out',
    ],
    [{ vehicle: 'N-1', day: '2026-02-30' }, 'day', 'must be a day such as 2026-03-04'],
    [{ vehicle: 'N-1', day: MONDAY, from: '7 am' }, 'from', 'must be a time of day such as 07:30'],
    [{ vehicle: 'N-1', day: MONDAY, bays: 2 }, 'bays', 'is not a known field'],
    [{ day: MONDAY }, 'vehicle', 'is missing'],
    [7, '', 'must be an object with vehicle and day'],
    [null, '', 'must be an object with vehicle and day'],
  ])('%j, before anything is looked up', async (request, field, message) => {
    const answer = await app.post('/api/bookings', JSON.stringify(request));
    const said = problem.parse(await answer.json());
    expect([answer.status, said.errors]).toEqual([400, [{ field, message }]]);
    expect(said.detail).toMatch(/^The booking is not right: .*Nothing was booked\.$/);
  });

  it.each([
    ['', 'body_empty'],
    ['{"vehicle":', 'body_broken'],
  ])('%j, which is no JSON', async (body, code) => {
    const answer = await app.post('/api/bookings', body);
    expect([answer.status, (await answer.json()).code]).toEqual([400, code]);
  });
});

describe('a booking that collides is refused with 409, and told with what', () => {
  it('a bay that has another vehicle in it, if for a quarter of an hour', async () => {
    await book(app, { vehicle: 'N-1', day: MONDAY, bay: 1, from: '09:00' });
    expect(await refusal({ vehicle: 'N-2', day: MONDAY, bay: 1, from: '11:45' })).toEqual([
      409,
      'bay',
      'Bay 1 of Skarrowick is taken on Mon 30 Nov at 11:45 for part of the 3 h: N-1 09:00 to 12:00.',
    ]);
    expect(await refusal({ vehicle: 'N-2', day: MONDAY, bay: 1, hours: 5 })).toEqual([
      409,
      'bay',
      'Bay 1 of Skarrowick is too full on Mon 30 Nov for 5 h: N-1 09:00 to 12:00.',
    ]);
  });

  it('a time at which every bay is taken, and a day that is full', async () => {
    for (const vehicle of ['N-1', 'N-2', 'N-3', 'N-4', 'N-5', 'N-6'])
      await book(app, { vehicle, day: MONDAY });
    expect(await refusal({ vehicle: 'N-7', day: MONDAY, from: '10:00', hours: 1 })).toEqual([
      409,
      'from',
      'Every one of the 2 bays of Skarrowick is taken on Mon 30 Nov at 10:00 for part of the 1 h: N-3 in bay 1 10:00 to 13:00 and N-4 in bay 2 10:00 to 13:00.',
    ]);
    const [status, field, message] = await refusal({ vehicle: 'N-7', day: MONDAY });
    expect([status, field]).toEqual([409, 'day']);
    expect(message).toMatch(
      /^Every one of the 2 bays of Skarrowick is too full .*N-1 in bay 1 .* and 3 more\.$/,
    );
    await book(app, { vehicle: 'S-1', day: MONDAY, hours: 9 });
    expect((await refusal({ vehicle: 'S-2', day: MONDAY }))[2]).toBe(
      'The only bay of Harrowmead is too full on Mon 30 Nov for 3 h: S-1 in bay 1 07:00 to 16:00.',
    );
  });

  it('a vehicle that has an open booking: ahead, put off, or past and not closed', async () => {
    const planner = await signInAs(app, 'planner', { name: 'Perrin Aldous' });
    await book(app, { vehicle: 'N-1', day: MONDAY, bay: 2, from: '07:00' }, planner.headers);
    const again = { vehicle: 'N-1', day: '2026-12-01' };
    expect(await refusal(again)).toEqual([
      409,
      'vehicle',
      'N-1 is booked already: Mon 30 Nov 07:00, at Skarrowick, bay 2, by Perrin Aldous. Move that booking instead.',
    ]);
    await app.client`
      update bookings set day = '2026-11-23', starts_at = '2026-11-23T06:00Z', ends_at = '2026-11-23T09:00Z'`;
    expect((await refusal(again))[2]).toBe(
      'N-1 was booked for Mon 23 Nov 07:00, at Skarrowick, bay 2, by Perrin Aldous, and nobody has said what became of it. First close that booking as done or cancelled, or move it.',
    );
    await book(app, { vehicle: 'N-2', reason: 'parts are missing' });
    expect((await refusal({ ...again, vehicle: 'N-2' }))[2]).toBe(
      'N-2 has a booking that set-up key put off (parts are missing). Give that one a day, or cancel it.',
    );
  });
});

describe('an array of bookings', () => {
  it('has each booked or refused by itself, with its line', async () => {
    const answer = await app.post('/api/bookings', [
      { vehicle: 'S-1', day: MONDAY, from: '07:00' },
      { vehicle: 'S-2', day: MONDAY, from: '09:00' },
      { vehicle: 'S-1', day: '2026-12-01' },
      { vehicle: 'S-3', day: '2026-11-28' },
      'x',
      { vehicle: 'S-4', day: MONDAY },
    ]);
    expect(answer.status).toBe(200);
    const { booked, refused } = bookingsReply.parse(await answer.json());
    expect(booked.map(({ vehicle, from }) => `${vehicle} ${from}`)).toEqual(['S-1 07:00', 'S-4 10:00']);
    expect(refused.map(({ line, vehicle, field }) => [line, vehicle, field])).toEqual([
      [2, 'S-2', 'from'],
      [3, 'S-1', 'vehicle'],
      [4, 'S-3', 'day'],
      [5, '', ''],
    ]);
  });

  it('may have 1000 elements and no more', async () => {
    const one = { vehicle: 'Q-404', day: MONDAY };
    const all = await app.post('/api/bookings', new Array(1000).fill(one));
    expect((await all.json()).refused).toHaveLength(1000);
    const more = await app.post('/api/bookings', new Array(1001).fill(one));
    expect([more.status, (await more.json()).detail]).toEqual([
      400,
      'The body has 1001 bookings, but one request may have 1000. Nothing was booked; send several.',
    ]);
    expect(await (await app.post('/api/bookings', '[]')).json()).toEqual({ booked: [], refused: [] });
  });

  it('that breaks off tells what was booked, what was not, and what was not tried', async () => {
    await app.client`truncate bookings restart identity`;
    await app.client`update depots set bays = 40 where id = 'north'`;
    const units = Array.from({ length: 400 }, (_, i) => `M-${i + 1}`);
    await app.post(
      '/api/vehicles',
      units.map((id) => ({ id, depot: 'north', platform: 'short' })),
    );
    const days = ['2026-12-01', '2026-12-02', '2026-12-03', '2026-12-04'];
    const asked = app.post(
      '/api/bookings',
      units.map((vehicle, i) => ({ vehicle, day: days[i % 4] })),
    );
    const count = async () => Number((await app.client`select count(*) as n from bookings`)[0]?.n);
    await expect.poll(count).toBeGreaterThan(3);
    await app.client`alter table bookings rename to bookings_away`;
    const answer = await asked;
    await app.client`alter table bookings_away rename to bookings`;
    expect(answer.status).toBe(200);
    const { booked, refused } = bookingsReply.parse(await answer.json());
    expect(booked).toHaveLength(await count());
    expect(booked.length).toBeLessThan(400);
    expect(booked.length + refused.length).toBe(400);
    const said = 'something went wrong on our side, and the log says what. Send it again.';
    expect(refused[0]?.message).toBe(`was not booked: ${said}`);
    expect(new Set(refused.slice(1).map(({ message }) => message))).toEqual(
      new Set([`was not tried: ${said}`]),
    );
    await app.client`update depots set bays = 2 where id = 'north'`;
  });

  it('that takes long asks again whether its sender may still book', async () => {
    await app.client`truncate bookings restart identity`;
    const { headers, email } = await signInAs(app, 'planner');
    const other = openDatabase(app.databaseUrl, { connections: 1 });
    let letGo = () => {};
    const held = new Promise<void>((resolve) => {
      letGo = resolve;
    });
    // The first vehicle is changed by somebody who takes their time.
    let haveTaken = () => {};
    const taken = new Promise<void>((resolve) => {
      haveTaken = resolve;
    });
    const changing = other.client.begin(async (transaction) => {
      await transaction`select from vehicles where unit = 'N-1' for update`;
      haveTaken();
      await held;
    });
    await taken;
    const asked = fetch(`${app.url}/api/bookings`, {
      method: 'POST',
      headers,
      body: JSON.stringify(['N-1', 'N-2', 'N-3'].map((vehicle) => ({ vehicle, day: MONDAY }))),
    });
    const waiting = async () =>
      Number(
        (
          await app.client`
            select count(*) as n from pg_stat_activity
            where datname = current_database() and wait_event_type = 'Lock'`
        )[0]?.n,
      );
    await expect.poll(waiting).toBe(1);
    await app.client`update people set role = 'analyst' where email = ${email}`;
    // Longer than an array goes on without asking again.
    await sleep(2100);
    letGo();
    await changing;
    await other.close();
    const { booked, refused } = bookingsReply.parse(await (await asked).json());
    expect(booked.map(({ vehicle }) => vehicle)).toEqual(['N-1']);
    expect(refused.map(({ vehicle, message }) => [vehicle, message])).toEqual([
      ['N-2', 'was not booked: What you may do was changed.'],
      ['N-3', 'was not tried: What you may do was changed.'],
    ]);
  });
});
