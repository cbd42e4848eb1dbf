import ICAL from 'ical.js';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { depotFeed, newDepotFeed } from '#server/contract/bookings.ts';
import { createLog } from '#server/create-log.ts';
import { startSlipdrift } from '#server/main.ts';
import { readSettings } from '#server/settings.ts';
import { book, bookingNow, change, gradeVehicle, setUpBookableFleet } from '#tests/helpers/bookable-fleet.ts';
import { createTestDatabase, type TestDatabase } from '#tests/helpers/database.ts';
import { type SignedInPerson, signInAs } from '#tests/helpers/sign-in.ts';
import { callsTo, type TestApp } from '#tests/helpers/start-app.ts';
import { TEST_KEY, withTestKey } from '#tests/helpers/test-key.ts';

const MONDAY = '2026-11-30';
const PUBLIC_URL = 'https://fleet.example';

let database: TestDatabase;
let app: TestApp;
let logged = '';
beforeAll(async () => {
  database = await createTestDatabase();
  const settings = {
    ...readSettings({ SLIPDRIFT_PUBLIC_URL: PUBLIC_URL }),
    databaseUrl: database.url,
    port: 0,
    apiKey: TEST_KEY,
  };
  const log = createLog('debug', {
    write(line) {
      logged += line;
    },
  });
  const running = await startSlipdrift(settings, log, { clockShiftMs: bookingNow.getTime() - Date.now() });
  app = {
    url: running.url,
    running,
    databaseUrl: database.url,
    db: database.db,
    client: database.client,
    ...callsTo(running.url),
    async stop() {
      await running.stop();
      await database.drop();
    },
  };
  await setUpBookableFleet(app);
});
afterAll(() => app?.stop());
beforeEach(async () => {
  await database.client`truncate bookings, assessments, grade_changes, depot_feeds restart identity`;
});

/** The address as this test reaches it: the one that is shown is that of the public name. */
async function makeFeed(depot = 'north', headers: Record<string, string> = withTestKey): Promise<string> {
  const answer = await fetch(`${app.url}/api/depots/${depot}/feed`, { method: 'POST', headers });
  expect(answer.status).toBe(200);
  const { address } = newDepotFeed.parse(await answer.json());
  expect(address).toMatch(/^https:\/\/fleet\.example\/api\/feeds\/[\w-]{43}\.ics$/);
  return address.replace(PUBLIC_URL, app.url);
}

/** As a calendar program asks: without a cookie and without a key. */
async function fetchText(address: string): Promise<string> {
  const answer = await fetch(address);
  expect([answer.status, answer.headers.get('content-type')]).toEqual([200, 'text/calendar; charset=utf-8']);
  return answer.text();
}

function readEvents(text: string) {
  const calendar = new ICAL.Component(ICAL.parse(text));
  return calendar.getAllSubcomponents('vevent').map((component) => {
    const event = new ICAL.Event(component);
    const moment = (name: string) =>
      (component.getFirstPropertyValue(name) as ICAL.Time).toJSDate().toISOString();
    return {
      uid: event.uid,
      sequence: event.sequence,
      summary: event.summary,
      location: event.location,
      description: event.description,
      start: event.startDate.toJSDate().toISOString(),
      end: event.endDate.toJSDate().toISOString(),
      stamp: moment('dtstamp'),
      modified: moment('last-modified'),
      status: component.getFirstPropertyValue('status'),
      url: component.getFirstPropertyValue('url'),
    };
  });
}

const readFeed = async (address: string) => readEvents(await fetchText(address));

describe('the calendar of a depot', () => {
  it('has what is booked there, with why, the note and the address of the vehicle', async () => {
    await gradeVehicle(database.client, 'N-1', 'hold');
    const address = await makeFeed();
    const made = await book(app, {
      vehicle: 'N-1',
      day: MONDAY,
      bay: 2,
      from: '08:15',
      note: 'key is inside',
    });
    await book(app, { vehicle: 'S-1', day: MONDAY });
    await book(app, { vehicle: 'N-2', reason: 'parts are missing' });
    const text = await fetchText(address);
    const [event, ...others] = readEvents(text);
    expect(others).toEqual([]);
    expect(event).toEqual({
      uid: expect.stringMatching(/^booking-1-[0-9a-f-]{36}$/),
      sequence: 1,
      summary: 'Inspect N-1 (hold)',
      location: 'Skarrowick, bay 2',
      description: [
        'Slip has risen from 19 to 76 rpm over 9,400 km',
        'key is inside',
        'https://fleet.example/vehicles/N-1',
      ].join('\n'),
      start: '2026-11-30T07:15:00.000Z',
      end: '2026-11-30T10:15:00.000Z',
      // Whole seconds are all that the format has.
      stamp: made.changed_at.replace(/\.\d+Z/, '.000Z'),
      modified: made.changed_at.replace(/\.\d+Z/, '.000Z'),
      status: 'CONFIRMED',
      url: 'https://fleet.example/vehicles/N-1',
    });
    const calendar = new ICAL.Component(ICAL.parse(text));
    expect(calendar.getFirstPropertyValue('version')).toBe('2.0');
    expect(calendar.getFirstPropertyValue('prodid')).toBe('-//Slipdrift//bookings//EN');
    for (const name of ['name', 'x-wr-calname'])
      expect(calendar.getFirstPropertyValue(name)).toBe('Inspections at Skarrowick');
    expect(String(calendar.getFirstPropertyValue('refresh-interval'))).toBe('PT1H');
    expect(calendar.getFirstPropertyValue('x-published-ttl')).toBe('PT1H');
  });

  it('shows a moved booking as the same event of a later version, and one that is cancelled or put off no more', async () => {
    const address = await makeFeed();
    const made = await book(app, { vehicle: 'N-1', day: MONDAY });
    const off = await book(app, { vehicle: 'N-2', day: MONDAY });
    const before = await readFeed(address);
    await change(app, withTestKey, made, 'move', { version: 1, day: '2026-12-01', from: '10:00' });
    await change(app, withTestKey, off, 'put-off', { version: 1, reason: 'parts are missing' });
    const [moved, ...others] = await readFeed(address);
    expect(others).toEqual([]);
    expect(moved).toMatchObject({ uid: before[0]?.uid, sequence: 2, start: '2026-12-01T09:00:00.000Z' });
    expect(before.map(({ sequence }) => sequence)).toEqual([1, 1]);
    expect(new Set(before.map(({ uid }) => uid)).size).toBe(2);
    await change(app, withTestKey, made, 'cancel', { version: 2, reason: 'sold' });
    expect(await readFeed(address)).toEqual([]);
    // Given a day again it is the event that it was.
    await change(app, withTestKey, off, 'move', { version: 2, day: '2026-12-02' });
    expect(await readFeed(address)).toMatchObject([{ uid: before[1]?.uid, sequence: 3 }]);
  });

  it('reaches from 30 days back, with what came of the inspections, to all that is ahead', async () => {
    const address = await makeFeed();
    for (const [vehicle, day] of [
      ['N-1', '2026-10-27'],
      ['N-2', '2026-10-26'],
      ['N-3', '2026-11-25'],
    ] as const) {
      const made = await book(app, { vehicle, day: MONDAY, note: 'to be seen' });
      await database.client`
        update bookings set day = ${day}, starts_at = starts_at - (${MONDAY}::date - ${day}::date) * interval '1 day',
          ends_at = ends_at - (${MONDAY}::date - ${day}::date) * interval '1 day' where id = ${made.id}`;
      if (vehicle !== 'N-3')
        await change(app, withTestKey, made, 'done', { version: 1, reason: 'seal changed' });
    }
    await book(app, { vehicle: 'N-4', day: '2027-11-25' });
    const events = await readFeed(address);
    expect(events.map(({ summary }) => summary)).toEqual(['Inspected N-1', 'Inspect N-3', 'Inspect N-4']);
    expect(events[0]?.description).toBe('to be seen\nseal changed\nhttps://fleet.example/vehicles/N-1');
  });

  it('has the right moments over the change to summer time, in a zone of its own', async () => {
    await app.post('/api/depots', {
      id: 'island',
      name: 'Island yard',
      bays: 1,
      // Clocks go forward on 14 March 2027, from UTC-3:30 to UTC-2:30.
      time_zone: 'America/St_Johns',
      special_days: [{ day: '2027-03-14', hours: { from: '00:00', to: '12:00' } }],
    });
    const address = await makeFeed('island');
    const book3h = (vehicle: string, day: string, from: string) =>
      book(app, { vehicle, depot: 'island', day, from });
    await book3h('N-1', '2027-03-12', '09:00');
    await book3h('N-2', '2027-03-14', '00:30');
    await book3h('N-3', '2027-03-15', '09:00');
    const text = await fetchText(address);
    expect(readEvents(text).map(({ start, end }) => [start, end])).toEqual([
      ['2027-03-12T12:30:00.000Z', '2027-03-12T15:30:00.000Z'],
      ['2027-03-14T04:00:00.000Z', '2027-03-14T07:00:00.000Z'],
      ['2027-03-15T11:30:00.000Z', '2027-03-15T14:30:00.000Z'],
    ]);
  });
});

describe('the text of a calendar', () => {
  const unit = 'B;1,2\\n "=1+1" 🚌';
  const note = `${'ein langes Wort mit Überlänge – 🚌🚌🚌 '.repeat(12).trim()}\nBEGIN:VEVENT\nSUMMARY:not mine; a, b \\ c`;
  let text: string;
  let address: string;
  beforeEach(async () => {
    await app.post('/api/depots', { id: 'odd', name: 'Yard; of, one\\two', bays: 1 });
    await app.post('/api/vehicles', { id: unit, depot: 'odd', platform: 'short' });
    address = await makeFeed('odd');
    await book(app, { vehicle: unit, day: MONDAY, note });
    text = await fetchText(address);
  });

  // RFC 5545, 3.1: lines end with CRLF and should have at most 75 octets; one that goes on begins with a space.
  it('has its lines ended and folded as RFC 5545 asks, no character cut in two', () => {
    expect(text.endsWith('END:VCALENDAR\r\n')).toBe(true);
    expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
    const lines = text.slice(0, -2).split('\r\n');
    for (const line of lines) expect(Buffer.byteLength(line), line).toBeLessThanOrEqual(75);
    expect(lines.filter((line) => line.startsWith(' ')).length).toBeGreaterThan(5);
    expect(text).not.toContain('\uFFFD');
  });

  // RFC 5545, 3.3.11: backslash, semicolon, comma and line break are escaped in text.
  it('has the marks of the format escaped, so that no note adds a line of its own', () => {
    const unfolded = text.replaceAll('\r\n ', '');
    expect(unfolded.match(/^BEGIN:VEVENT\r$/gm)).toHaveLength(1);
    expect(unfolded).toContain('SUMMARY:Inspect B\\;1\\,2\\\\n "=1+1" 🚌\r\n');
    expect(unfolded).toContain('\\nBEGIN:VEVENT\\nSUMMARY:not mine\\; a\\, b \\\\ c\\nhttps://');
    expect(unfolded).toContain('LOCATION:Yard\\; of\\, one\\\\two\\, bay 1\r\n');
    expect(unfolded).toContain('\r\nX-WR-CALNAME:Inspections at Yard\\; of\\, one\\\\two\r\n');
    const [event, ...others] = readEvents(text);
    expect(others).toEqual([]);
    expect(event).toMatchObject({
      summary: `Inspect ${unit}`,
      location: 'Yard; of, one\\two, bay 1',
      description: `${note}\nhttps://fleet.example/vehicles/${encodeURIComponent(unit)}`,
    });
  });

  // RFC 5545, 3.3.5, form 2: a time in UTC has a Z behind it, and no zone.
  it('has all times in UTC', () => {
    const times = text.match(/^(DTSTART|DTEND|DTSTAMP|CREATED|LAST-MODIFIED).*$/gm) ?? [];
    expect(times).toHaveLength(5);
    for (const time of times) expect(time).toMatch(/^[A-Z-]+:\d{8}T\d{6}Z\r?$/);
    expect(text).not.toContain('TZID');
  });

  // RFC 5545, 3.6, 3.6.1 and 3.8: what must be there, and what must not be there twice.
  it('has what every calendar and event must have, each once', () => {
    const names = (lines: string) =>
      (lines.replaceAll('\r\n ', '').match(/^[A-Z-]+(?=[:;])/gm) ?? []).toSorted();
    const [head = '', rest = ''] = text.split('BEGIN:VEVENT\r\n');
    expect(names(head)).toEqual([
      'BEGIN',
      'NAME',
      'PRODID',
      'REFRESH-INTERVAL',
      'VERSION',
      'X-PUBLISHED-TTL',
      'X-WR-CALNAME',
    ]);
    expect(names(rest.split('END:VEVENT')[0] ?? '')).toEqual([
      'CREATED',
      'DESCRIPTION',
      'DTEND',
      'DTSTAMP',
      'DTSTART',
      'LAST-MODIFIED',
      'LOCATION',
      'SEQUENCE',
      'STATUS',
      'SUMMARY',
      'UID',
      'URL',
    ]);
  });

  it('is the same where nothing changed, and without events where nothing is booked', async () => {
    expect(await fetchText(address)).toBe(text);
    await database.client`delete from bookings`;
    const empty = await fetchText(address);
    expect(readEvents(empty)).toEqual([]);
    expect(empty).toMatch(/^BEGIN:VCALENDAR\r\n.*END:VCALENDAR\r\n$/s);
  });
});

describe('the secret address', () => {
  let planner: SignedInPerson;
  beforeAll(async () => {
    planner = await signInAs(app, 'planner', { name: 'Perrin Aldous' });
  });
  const ask = async (method: string, depot: string, headers: Record<string, string> = withTestKey) => {
    const answer = await fetch(`${app.url}/api/depots/${depot}/feed`, { method, headers });
    return { status: answer.status, reply: answer.status === 204 ? null : await answer.json() };
  };
  const secretOf = (address: string) => address.slice(-47, -4);

  it('is shown once, kept as a digest, and ends when another is made or it is ended', async () => {
    expect((await ask('GET', 'north')).reply).toEqual({
      depot: 'north',
      made_at: null,
      made_by: null,
      used_at: null,
    });
    const headers = { ...planner.headers, origin: PUBLIC_URL };
    const first = await makeFeed('north', headers);
    expect(depotFeed.parse((await ask('GET', 'north')).reply)).toMatchObject({
      made_by: 'Perrin Aldous',
      used_at: null,
    });
    const [row] = await database.client`select digest, depot_feeds::text as whole from depot_feeds`;
    expect(row?.digest).toHaveLength(32);
    expect(row?.whole).not.toContain(secretOf(first));
    await fetchText(first);
    const second = await makeFeed();
    expect(second).not.toBe(first);
    expect((await fetch(first)).status).toBe(404);
    await fetchText(second);
    expect((await ask('DELETE', 'north')).status).toBe(204);
    expect((await fetch(second)).status).toBe(404);
    expect((await ask('DELETE', 'north')).status).toBe(404);
    const noted = await database.client`
      select action, actor_name, before, after from changes where subject = 'feed' and subject_id = 'north' order by id desc limit 3`;
    expect(noted.map(({ action, actor_name }) => [action, actor_name])).toEqual([
      ['deleted', 'set-up key'],
      ['changed', 'set-up key'],
      ['created', 'Perrin Aldous'],
    ]);
    for (const secret of [secretOf(first), secretOf(second)])
      expect(JSON.stringify(noted)).not.toContain(secret);
  });

  it('that is not known is answered alike, whatever it looks like', async () => {
    const real = secretOf(await makeFeed());
    const last = real.endsWith('A') ? 'B' : 'A';
    const answers = [];
    for (const file of [
      `${real.slice(0, -1)}${last}.ics`,
      `${real}x.ics`,
      `${real}.pdf`,
      'x.ics',
      'x',
      `${'y'.repeat(900)}.ics`,
      '%F0%9F%9A%8C.ics',
    ]) {
      const answer = await fetch(`${app.url}/api/feeds/${file}`);
      const { request: _, ...problem } = await answer.json();
      answers.push(JSON.stringify([answer.status, answer.headers.get('content-type'), problem]));
    }
    expect(new Set(answers)).toEqual(new Set([answers[0]]));
    expect(answers[0]).toContain('404');
    expect(answers[0]).not.toContain(real.slice(0, 6));
  });

  it('is used without a cookie and without a key, also by HEAD, and stays in no cache', async () => {
    const address = await makeFeed();
    const answer = await fetch(address);
    expect(answer.headers.get('cache-control')).toBe('no-store');
    expect(answer.headers.get('content-disposition')).toBe('inline; filename="slipdrift-bookings.ics"');
    await answer.body?.cancel();
    const head = await fetch(address, { method: 'HEAD' });
    expect([head.status, head.headers.get('content-type')]).toEqual([200, 'text/calendar; charset=utf-8']);
    expect((await fetch(address, { method: 'POST' })).status).toBe(405);
  });

  it('notes that it is used, once an hour at the most', async () => {
    const address = await makeFeed();
    const used = async () => depotFeed.parse((await ask('GET', 'north')).reply).used_at;
    await fetchText(address);
    const first = await used();
    expect(Math.abs(Date.parse(first ?? '') - bookingNow.getTime())).toBeLessThan(600_000);
    await fetchText(address);
    expect(await used()).toBe(first);
    await database.client`update depot_feeds set used_at = used_at - interval '61 minutes'`;
    await fetchText(address);
    expect(Date.parse((await used()) ?? '')).toBeGreaterThanOrEqual(Date.parse(first ?? ''));
  });

  it('is written down nowhere: neither in the log nor among the figures', async () => {
    const address = await makeFeed();
    const secret = secretOf(address);
    await fetchText(address);
    for (const odd of [
      address.replace('/api/feeds', '//api/feeds'),
      address.replace('/api/feeds', '/api/%66eeds'),
      address.replace('/api/feeds', '/API/Feeds'),
      `${address}/more`,
      address.replace('.ics', '.pdf'),
    ])
      await (await fetch(odd)).body?.cancel();
    await (await fetch(address, { method: 'PUT' })).body?.cancel();
    await database.client`alter table depot_feeds rename to depot_feeds_away`;
    const broken = await fetch(address);
    await database.client`alter table depot_feeds_away rename to depot_feeds`;
    expect(broken.status).toBe(500);
    expect(await broken.text()).not.toContain(secret);
    await expect.poll(() => logged.match(/"path":"[^"]*feeds\/…","status":500/)?.length).toBe(1);
    expect(logged).toContain('"path":"/api/feeds/…","status":200');
    expect(logged).not.toContain(secret.slice(0, 12));
    const metrics = await (await fetch(`${app.url}/metrics`)).text();
    expect(metrics).toContain('route="/api/feeds/:file"');
    expect(metrics).not.toContain(secret.slice(0, 12));
  });

  it('is made and ended by planners of the depot alone', async () => {
    const south = await signInAs(app, 'planner', { depots: ['south'] });
    const shop = await signInAs(app, 'shop', { depots: ['north'] });
    await makeFeed();
    for (const method of ['GET', 'POST', 'DELETE']) {
      for (const { headers } of [south, shop])
        expect((await ask(method, 'north', { ...headers, origin: PUBLIC_URL })).status).toBe(403);
      expect((await ask(method, 'nowhere')).status).toBe(404);
      expect((await ask(method, 'north', {})).status).toBe(401);
    }
    expect((await ask('POST', 'south', { ...south.headers, origin: PUBLIC_URL })).status).toBe(200);
  });
});
