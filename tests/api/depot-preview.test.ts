import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { booking } from '#server/contract/bookings.ts';
import { usualWeek } from '#server/contract/calendar.ts';
import { depotPreview } from '#server/contract/settings.ts';
import { book, bookingNow, setUpBookableFleet } from '#tests/helpers/bookable-fleet.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';

let app: TestApp;
beforeAll(async () => {
  app = await startApp({}, bookingNow);
  await setUpBookableFleet(app, 4);
  // A Monday: both bays from the morning on, one of them twice.
  await book(app, { vehicle: 'N-1', day: '2026-11-30', bay: 1, from: '07:00' });
  await book(app, { vehicle: 'N-2', day: '2026-11-30', bay: 1, from: '10:00' });
  await book(app, { vehicle: 'N-3', day: '2026-11-30', bay: 2, from: '13:00' });
  await book(app, { vehicle: 'N-4', day: '2026-12-01', bay: 1, from: '07:00' });
});
afterAll(() => app?.stop());

const north = { id: 'north', name: 'Skarrowick', bays: 2, time_zone: 'Europe/Vienna' };

async function preview(changes: object) {
  const answer = await app.post('/api/settings/depot-preview', { ...north, ...changes });
  const { misfits, open } = depotPreview.parse(await answer.json());
  expect(open).toBe(4);
  return misfits.map(({ vehicle, why }) => `${vehicle}: ${why}`);
}

const readBookings = async () =>
  booking
    .array()
    .parse(await (await app.get('/api/bookings?depot=north')).json())
    .map(({ vehicle, day, from, to, bay, starts_at, version }) => ({
      vehicle,
      day,
      from,
      to,
      bay,
      starts_at,
      version,
    }))
    .toSorted((a, b) => a.vehicle.localeCompare(b.vehicle));

describe('a changed depot', () => {
  it('that leaves room for everything it has tells of no booking', async () => {
    expect(await preview({ bays: 3 })).toEqual([]);
  });

  it('with fewer bays tells of the booking that loses its own', async () => {
    expect(await preview({ bays: 1 })).toEqual([
      'N-3: Skarrowick has one bay on Mon 30 Nov, so there is no bay 2.',
    ]);
  });

  it('with other hours, closed days and holidays tells of what falls outside them', async () => {
    const week = { ...usualWeek, monday: { from: '08:00', to: '15:00' }, tuesday: null };
    expect(await preview({ week })).toEqual([
      expect.stringMatching(/^N-1: 07:00 to 10:00 is outside the hours of Skarrowick, .* 08:00 to 15:00/),
      expect.stringMatching(/^N-3: 13:00 to 16:00 is outside the hours/),
      expect.stringMatching(/^N-4: Tue 1 Dec is a Tuesday, on which Skarrowick does not work/),
    ]);
    const special_days = [{ day: '2026-12-01', bays: 0, note: 'stocktaking' }];
    expect(await preview({ special_days })).toEqual(['N-4: Skarrowick is closed on Tue 1 Dec: stocktaking.']);
  });

  it('does not tell again of what did not fit before', async () => {
    await app.post('/api/depots', { ...north, bays: 1 });
    expect(await preview({ bays: 1 })).toEqual([]);
    await app.post('/api/depots', north);
  });

  it('keeps what is left out, as where it is saved', async () => {
    await app.post('/api/depots', { ...north, week: { ...usualWeek, tuesday: null } });
    const part = { id: 'north', name: 'Skarrowick' };
    const answer = await app.post('/api/settings/depot-preview', part);
    // With one bay, or in UTC, or with usual weekdays something would be told.
    expect(await answer.json()).toEqual({ misfits: [], open: 4 });
    await app.post('/api/depots', { ...north, week: usualWeek });
    const fewer = await app.post('/api/settings/depot-preview', { ...part, bays: 1 });
    expect(depotPreview.parse(await fewer.json()).misfits.map(({ vehicle }) => vehicle)).toEqual(['N-3']);
  });

  it('that is new has no bookings', async () => {
    const answer = await app.post('/api/settings/depot-preview', { id: 'west', name: 'West' });
    expect(await answer.json()).toEqual({ misfits: [], open: 0 });
  });

  it('in another time zone keeps day and time of day of its bookings', async () => {
    const before = await readBookings();
    expect(await preview({ time_zone: 'Europe/London' })).toEqual([]);
    expect((await app.post('/api/depots', { ...north, time_zone: 'Europe/London' })).status).toBe(200);
    const after = await readBookings();
    const hour = 3_600_000;
    expect(after).toEqual(
      before.map(({ starts_at, version, ...rest }) => ({
        ...rest,
        version: version + 1,
        starts_at: new Date(Date.parse(starts_at ?? '') + hour).toISOString(),
      })),
    );
    await app.post('/api/depots', { ...north, time_zone: 'Asia/Tokyo' });
    await app.post('/api/depots', north);
    expect(await readBookings()).toEqual(before.map((one) => ({ ...one, version: one.version + 3 })));
    // The same time of day is the same moment there.
    await app.post('/api/depots', { ...north, time_zone: 'Europe/Berlin' });
    await app.post('/api/depots', north);
    expect(await readBookings()).toEqual(before.map((one) => ({ ...one, version: one.version + 3 })));
  });

  it('in another time zone leaves to closed bookings who closed them and when, and notes each open one', async () => {
    const closed = await app.client`
      update bookings set state = 'done', changed_at = '2026-11-20T08:00Z', changed_by = 'Jo Marr', reason = 'seal changed'
      where vehicle = (select key from vehicles where unit = 'N-4') returning *`;
    const [was] = closed;
    const last = async () => (await app.client`select coalesce(max(id), 0) as id from changes`)[0]?.id;
    const from = await last();
    await app.post('/api/depots', { ...north, time_zone: 'Europe/London' });
    const [row] = await app.client`select * from bookings where id = ${was?.id}`;
    const later = (at: Date) => new Date(at.getTime() + 3_600_000);
    expect(row).toEqual({ ...was, starts_at: later(was?.starts_at), ends_at: later(was?.ends_at) });
    const noted = await app.client`
      select subject_id, before, after from changes where id > ${from} and action = 'booking_moved' order by subject_id`;
    expect(noted.map(({ subject_id }) => subject_id)).toEqual(['N-1', 'N-2', 'N-3']);
    expect(noted[0]).toMatchObject({
      before: { from: '07:00', starts_at: '2026-11-30T06:00:00.000Z' },
      after: {
        from: '07:00',
        starts_at: '2026-11-30T07:00:00.000Z',
        reason: "the depot's time zone was corrected",
      },
    });
    const { events } = await (await app.get('/api/vehicles/N-1/history')).json();
    expect(events[0].text).toBe(
      "Booking of Mon 30 Nov 07:00 kept at that time of day, by set-up key: the depot's time zone was corrected",
    );
    await app.post('/api/depots', north);
  });
});

describe('a time zone in which two bookings would meet', () => {
  const nights = {
    id: 'nights',
    name: 'Night yard',
    bays: 1,
    time_zone: 'UTC',
    week: { ...usualWeek, sunday: { from: '00:00', to: '24:00' } },
  };
  const whys = [
    'N-1: In Europe/Vienna 03:00 to 04:00 on Sun 28 Mar 2027 meets N-2, which has bay 1 from 03:00 to 04:00.',
    'N-2: In Europe/Vienna 03:00 to 04:00 on Sun 28 Mar 2027 meets N-1, which has bay 1 from 03:00 to 04:00.',
  ];

  const changed = { id: 'nights', name: 'Renamed', time_zone: 'Europe/Vienna' };

  beforeAll(async () => {
    await app.client`truncate bookings restart identity`;
    await app.post('/api/depots', nights);
    const on = { depot: 'nights', day: '2027-03-28', bay: 1, hours: 1 };
    // The night on which the clocks go forward from two to three.
    await book(app, { ...on, vehicle: 'N-1', from: '02:00' });
    await book(app, { ...on, vehicle: 'N-2', from: '03:00' });
    await book(app, { ...on, vehicle: 'N-3', from: '04:00' });
  });

  it('is told of before', async () => {
    const told = depotPreview.parse(await (await app.post('/api/settings/depot-preview', changed)).json());
    expect([told.open, told.misfits.map(({ vehicle, why }) => `${vehicle}: ${why}`)]).toEqual([3, whys]);
  });

  it('is refused with both of them, and nothing changes', async () => {
    const read = () => app.client`select * from bookings order by id`;
    const before = await read();
    const answer = await app.post('/api/depots', changed);
    const said = await answer.json();
    expect([answer.status, said.code, said.detail]).toEqual([
      409,
      'conflict',
      'In Europe/Vienna bookings of Renamed would be in one bay at once: N-1, N-2. Move them apart first, then change the time zone. Nothing was changed.',
    ]);
    expect(said.errors).toEqual(whys.map((message) => ({ field: 'time_zone', message })));
    expect(await read()).toEqual(before);
    const [depot] = await app.client`select name, time_zone from depots where id = 'nights'`;
    expect(depot).toEqual({ name: 'Night yard', time_zone: 'UTC' });
  });
});

describe('a depot that cannot be', () => {
  it.each([
    [{ week: { ...usualWeek, monday: { from: '16:00', to: '07:00' } } }, 'week.monday.to', 'must end after'],
    [{ time_zone: 'Moon/Base' }, 'time_zone', 'must be an IANA time zone'],
    [
      { special_days: [{ day: '2026-12-24', bays: 0 }, { day: '2026-12-24' }] },
      'special_days.1.day',
      '2026-12-24 is named twice',
    ],
    [
      { week: Object.fromEntries(Object.keys(usualWeek).map((day) => [day, null])) },
      'week',
      'has no working day',
    ],
  ])('is refused at the field: %j', async (changes, field, message) => {
    for (const path of ['/api/settings/depot-preview', '/api/depots']) {
      const answer = await app.post(path, { ...north, ...changes });
      expect(answer.status).toBe(400);
      const { errors } = await answer.json();
      expect(errors).toMatchObject([{ field, message: expect.stringContaining(message) }]);
    }
  });

  it('is refused too where it could be by itself, and not with what is there', async () => {
    const never = Object.fromEntries(Object.keys(usualWeek).map((day) => [day, null]));
    await app.post('/api/depots', { id: 'shut', name: 'Shut', bays: 0, week: never });
    const answer = await app.post('/api/depots', { id: 'shut', name: 'Shut', bays: 2 });
    expect(answer.status).toBe(400);
    expect((await answer.json()).errors).toMatchObject([
      { line: 1, field: 'week', message: expect.stringContaining('has no working day') },
    ]);
    const [row] = await app.client`select bays from depots where id = 'shut'`;
    expect(row).toEqual({ bays: 0 });
  });
});
