import fc from 'fast-check';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { bookingsReply } from '#server/contract/bookings.ts';
import { fuzz, hold, holdEqual } from './fuzz.ts';
import { holdAnswer } from './hold-answer.ts';
import { hostileText, hostileValue, jsonToken } from './hostile-values.ts';
import { mutated } from './mutate-bytes.ts';
import { type FuzzedApp, startFuzzedApp } from './start-fuzzed-app.ts';

/** One zone is spelled oddly, the other is three quarters of an hour beside the full one. */
const depots = [
  { id: 'A', name: 'Yard; of, one', bays: 2, time_zone: 'europe/vienna' },
  { id: 'b-2', name: 'ü', bays: 1, time_zone: 'Asia/Kathmandu' },
  { id: 'none', name: 'none', bays: 0 },
];
const DAY_MS = 86_400_000;

let app: FuzzedApp;
beforeAll(async () => {
  app = await startFuzzedApp();
  const send = async (path: string, body: unknown) => {
    const answer = await app.ask(path, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
    });
    expect(await answer.json()).toMatchObject({ changed: 0, unchanged: 0 });
  };
  await send('/api/depots', depots);
  await send(
    '/api/vehicles',
    Array.from({ length: 30 }, (_, i) => ({ id: `v${i}`, depot: i % 3 === 0 ? 'b-2' : 'A' })),
  );
});
afterAll(() => app.stop());

const dayAhead = fc
  .integer({ min: -3, max: 400 })
  .map((ahead) => new Date(Date.now() + ahead * DAY_MS).toISOString().slice(0, 10));
/** Mostly right: a booking is refused for its first fault, and then nothing else of it is tried. */
const mostly = <T>(right: fc.Arbitrary<T>, wrong: fc.Arbitrary<unknown>) =>
  fc.oneof({ weight: 15, arbitrary: right }, { weight: 1, arbitrary: wrong });
const fields = {
  vehicle: mostly(
    fc.integer({ min: 0, max: 29 }).map((i) => `v${i}`),
    hostileText,
  ),
  depot: mostly(fc.constantFrom('A', 'b-2'), fc.constantFrom('none', 'nowhere', '')),
  day: mostly(dayAhead, fc.constantFrom('2026-02-30', '9999-12-31', '0000-01-01', 'today', '')),
  bay: mostly(fc.constantFrom(1, 2), fc.integer({ min: -1, max: 600 })),
  from: mostly(
    fc.constantFrom('07:00', '09:45', '12:15'),
    fc.constantFrom('15:59', '24:00', '00:00', '7:00', '٠٧:٠٠'),
  ),
  hours: mostly(fc.constantFrom(0.25, 1, 3), fc.oneof(fc.constantFrom(9.25, 24), fc.double())),
  note: mostly(fc.constant('to be seen\r\nby Jo'), hostileText),
  reason: mostly(fc.constant('no bay before'), hostileText),
  version: fc.constantFrom(1, 1, 1, 2, 2, 3, 4, 0),
  leaves_hold: fc.boolean(),
};
const pick = (needed: (keyof typeof fields)[], other: (keyof typeof fields)[]) =>
  fc
    .tuple(
      fc.record(Object.fromEntries([...needed, ...other].map((name) => [name, fields[name]])), {
        requiredKeys: needed,
      }),
      fc.option(fc.tuple(fc.oneof(fc.constantFrom(...needed, ...other), hostileText), hostileValue), {
        nil: null,
        freq: 4,
      }),
    )
    .map(([value, wrong]) => (wrong === null ? value : { ...value, [wrong[0]]: wrong[1] }));

const request = pick(['vehicle', 'day'], ['depot', 'bay', 'from', 'hours', 'note', 'reason']);
const id = fc.oneof(
  { weight: 6, arbitrary: fc.integer({ min: 1, max: 15 }).map(String) },
  { weight: 1, arbitrary: fc.constantFrom('0', '-1', '1.5', '1e3', '9007199254740993', 'x', '%00', '%F0') },
);
const call = fc.oneof(
  {
    weight: 4,
    arbitrary: fc.tuple(
      fc.constant('POST'),
      fc.constant('/api/bookings'),
      fc.oneof(request, fc.array(request, { maxLength: 4 })),
    ),
  },
  {
    weight: 3,
    arbitrary: fc.tuple(
      fc.constant('PATCH'),
      id.map((one) => `/api/bookings/${one}`),
      pick(['version'], ['day', 'depot', 'bay', 'from', 'hours', 'note', 'reason']),
    ),
  },
  {
    weight: 3,
    arbitrary: fc.tuple(
      fc.constant('POST'),
      fc
        .tuple(id, fc.constantFrom('put-off', 'cancel', 'done'))
        .map(([one, what]) => `/api/bookings/${one}/${what}`),
      pick(['version', 'reason'], ['leaves_hold']),
    ),
  },
);
const bodied = call.chain(([method, path, value]) => {
  const good = fc.constant(Buffer.from(JSON.stringify(value)));
  const body = fc.oneof(
    { weight: 9, arbitrary: good },
    { weight: 1, arbitrary: mutated(good) },
    { weight: 1, arbitrary: jsonToken.map((text) => Buffer.from(text)) },
  );
  return fc.tuple(fc.constant(method), fc.constant(path), body);
});

it('books, moves and closes by any body, and never puts two vehicles into one bay', async () => {
  await fuzz('booking', bodied, async ([method, path, body]) => {
    const asked = `${method} ${path} ${body.toString('latin1').slice(0, 1000)}`;
    const headers = { 'content-type': 'application/json', 'content-length': String(body.length) };
    const { status, text } = await holdAnswer(
      await app.ask(path, { method, headers, body: new Uint8Array(body) }),
      asked,
    );
    if (status !== 200) return;
    if (path === '/api/bookings') bookingsReply.parse(JSON.parse(text));
    const [row] = await app.client`
      select count(*)::int as n from bookings a join bookings b
        on a.id < b.id and a.depot = b.depot and a.bay = b.bay
          and tstzrange(a.starts_at, a.ends_at) && tstzrange(b.starts_at, b.ends_at)
      where a.state = 'booked' and b.state = 'booked'`;
    holdEqual(String(row?.n), '0');
    const shown = await holdAnswer(await app.ask('/api/bay-plan?days=3'), asked);
    hold(shown.status === 200, () => `${asked}: the bay plan answered ${shown.text}`);
  });
  // Not all of them were refused.
  const [row] = await app.client`select count(*)::int as n, max(version) as version from bookings`;
  expect(row?.n).toBeGreaterThan(5);
  expect(row?.version).toBeGreaterThan(1);
});
