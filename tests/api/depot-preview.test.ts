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
