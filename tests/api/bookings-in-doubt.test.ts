import { pino } from 'pino';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { bookingsReply } from '#server/contract/bookings.ts';
import { type Running, startSlipdrift } from '#server/main.ts';
import { readSettings } from '#server/settings.ts';
import { book, bookingNow, change, setUpBookableFleet } from '#tests/helpers/bookable-fleet.ts';
import { type CutDatabase, cutDatabase } from '#tests/helpers/cut-database.ts';
import { createTestDatabase, type TestDatabase } from '#tests/helpers/database.ts';
import { callsTo, type TestApp } from '#tests/helpers/start-app.ts';
import { TEST_KEY, withTestKey } from '#tests/helpers/test-key.ts';

const MONDAY = '2026-11-30';
const NOT_TRIED = 'was not tried: storage had gone away. Send it again.';

let database: TestDatabase;
let storage: CutDatabase;
let running: Running;
let app: Pick<TestApp, 'url' | 'get' | 'post'>;
beforeAll(async () => {
  database = await createTestDatabase();
  storage = await cutDatabase(database.url);
  running = await startSlipdrift(
    { ...readSettings({}), databaseUrl: storage.url, port: 0, apiKey: TEST_KEY },
    pino({ level: 'silent' }),
    { clockShiftMs: bookingNow.getTime() - Date.now() },
  );
  app = { url: running.url, ...callsTo(running.url) };
  await setUpBookableFleet(app);
});
afterAll(async () => {
  await running?.stop();
  await storage?.close();
  await database?.drop();
});
beforeEach(async () => {
  await database.client`truncate bookings restart identity`;
});
afterEach(() => storage.cutAt(null));

async function bookAll(body: unknown) {
  const answer = await app.post('/api/bookings', body);
  const reply = await answer.json();
  return { status: answer.status, reply };
}
const listBooked = async () =>
  (await database.client`select unit from bookings join vehicles on key = vehicle order by id`).map(
    ({ unit }) => unit,
  );

describe('a booking of which the answer of storage is lost', () => {
  it('is told as one that may be booked, and is', async () => {
    storage.cutAt('commit');
    const { status, reply } = await bookAll({ vehicle: 'N-1', day: MONDAY });
    expect([status, reply.code, reply.detail]).toEqual([
      503,
      'storage_unavailable',
      'Storage went away, so it may be booked or not. Look first.',
    ]);
    expect(await listBooked()).toEqual(['N-1']);
  });

  it('is told in its line of an array, also as the first', async () => {
    storage.cutAt('commit');
    const { status, reply } = await bookAll([
      { vehicle: 'N-1', day: MONDAY },
      { vehicle: 'N-2', day: MONDAY },
    ]);
    expect(status).toBe(200);
    expect(bookingsReply.parse(reply)).toEqual({
      booked: [],
      refused: [
        {
          line: 1,
          vehicle: 'N-1',
          field: '',
          message: 'Storage went away, so it may be booked or not. Look first.',
        },
        { line: 2, vehicle: 'N-2', field: '', message: NOT_TRIED },
      ],
    });
    expect(await listBooked()).toEqual(['N-1']);
  });

  it('is told as not booked where storage went away before it was asked to keep it', async () => {
    storage.cutAt('lost here');
    const lost = { vehicle: 'N-2', day: MONDAY, note: 'lost here' };
    const alone = await bookAll(lost);
    expect([alone.status, alone.reply.detail]).toEqual([
      503,
      'The database cannot be reached right now. Nothing of this request was stored; send it again later.',
    ]);
    const { reply } = await bookAll([{ vehicle: 'N-1', day: MONDAY }, lost, { vehicle: 'N-3', day: MONDAY }]);
    const { booked, refused } = bookingsReply.parse(reply);
    expect(booked.map(({ vehicle }) => vehicle)).toEqual(['N-1']);
    expect(refused.map(({ vehicle, message }) => [vehicle, message])).toEqual([
      ['N-2', 'was not booked: storage had gone away. Send it again.'],
      ['N-3', NOT_TRIED],
    ]);
    expect(await listBooked()).toEqual(['N-1']);
  });

  it.each([
    ['move', { day: '2026-12-01' }],
    ['put-off', { reason: 'parts are missing' }],
    ['cancel', { reason: 'sold' }],
    ['done', {}],
  ] as const)('is told as one whose change may be stored, and is: %s', async (what, body) => {
    const made = await book(app, { vehicle: 'N-1', day: MONDAY });
    if (what === 'done')
      await database.client`
        update bookings set day = '2026-11-25', starts_at = starts_at - interval '5 days',
          ends_at = ends_at - interval '5 days'`;
    storage.cutAt('commit');
    const { status, reply } = await change(app, withTestKey, made, what, { version: 1, ...body });
    expect([status, reply.code, reply.detail]).toEqual([
      503,
      'storage_unavailable',
      'Storage went away, so this change may be stored or not. Look first.',
    ]);
    const [row] = await database.client`select version from bookings`;
    expect(row?.version).toBe(2);
  });
});

describe('an array of bookings in which something goes wrong on our side', () => {
  const failing = (name: string, does: string) =>
    database.client.unsafe(`
    create function ${name}() returns trigger language plpgsql as $$ begin ${does} end $$;
    create trigger ${name} before insert on bookings for each row when (new.note = '${name}')
      execute function ${name}()`);
  const three = (note: string) => [
    { vehicle: 'N-1', day: MONDAY },
    { vehicle: 'N-2', day: MONDAY, note },
    { vehicle: 'N-3', day: MONDAY },
  ];

  it('is told so, and storage is not blamed', async () => {
    await failing('unforeseen', "raise exception 'x';");
    const { reply } = await bookAll(three('unforeseen'));
    const said = 'something went wrong on our side, and the log says what. Send it again.';
    expect(bookingsReply.parse(reply).refused.map(({ vehicle, message }) => [vehicle, message])).toEqual([
      ['N-2', `was not booked: ${said}`],
      ['N-3', `was not tried: ${said}`],
    ]);
    expect(await listBooked()).toEqual(['N-1']);
  });

  it('goes on past one that finds no bay before others have it', async () => {
    await failing('outrun', 'return null;');
    const { reply } = await bookAll(three('outrun'));
    expect(bookingsReply.parse(reply).refused).toEqual([
      {
        line: 2,
        vehicle: 'N-2',
        field: 'day',
        message:
          'The bays of Skarrowick are being booked faster than this booking finds a free one. Send it again.',
      },
    ]);
    expect(await listBooked()).toEqual(['N-1', 'N-3']);
  });
});
