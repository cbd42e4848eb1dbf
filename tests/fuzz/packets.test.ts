import { gzipSync } from 'node:zlib';
import fc from 'fast-check';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { packet, packetFile, packetList } from '#server/contract/packets.ts';
import { closed } from '#server/contract/repair.ts';
import { recorded } from '#server/contract/test-steps.ts';
import { causes, coreStates, outcomes, packetStates, partKinds, testSteps } from '#server/contract/words.ts';
import { makeReading } from '#tests/helpers/make-reading.ts';
import { fuzz, hold, holdEqual } from './fuzz.ts';
import { type Answer, holdAnswer } from './hold-answer.ts';
import { hostileText, hostileValue, jsonToken } from './hostile-values.ts';
import { mutated } from './mutate-bytes.ts';
import { type FuzzedApp, startFuzzedApp } from './start-fuzzed-app.ts';

const VEHICLES = 12;

let app: FuzzedApp;
beforeAll(async () => {
  app = await startFuzzedApp();
  const send = async (path: string, body: unknown) => {
    const answer = await app.ask(path, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
    });
    expect(answer.status, await answer.text()).toBe(200);
  };
  const units = Array.from({ length: VEHICLES }, (_, i) => `v${i}`);
  await send('/api/depots', { id: 'A', name: 'Yard' });
  await send('/api/platforms', {
    id: 'bus',
    name: 'Bus',
    solenoid: { ohm: 5.5, supply_v: 24 },
    converter: { price: 900, core_deposit: 1200 },
  });
  await send(
    '/api/vehicles',
    units.map((id, i) => ({ id, depot: 'A', platform: i % 2 === 0 ? 'bus' : null })),
  );
  await send(
    '/api/readings',
    units.map((vehicle) => makeReading({ vehicle, odometer_km: 80_000 })),
  );
  for (const vehicle of units) await send('/api/packets', { vehicle });
});
afterAll(() => app.stop());

/** Mostly right: a call is refused for its first fault, and then nothing else of it is tried. */
const mostly = <T>(right: fc.Arbitrary<T>, wrong: fc.Arbitrary<unknown> = hostileValue) =>
  fc.oneof({ weight: 15, arbitrary: right as fc.Arbitrary<unknown> }, { weight: 1, arbitrary: wrong });
/** One time in so many; else null. */
const seldom = <T>(oneIn: number, arbitrary: fc.Arbitrary<T>) =>
  fc.oneof({ weight: oneIn - 1, arbitrary: fc.constant(null) }, { weight: 1, arbitrary });
const maybe = <T>(arbitrary: fc.Arbitrary<T>) => fc.option(arbitrary, { nil: null, freq: 4 });
const figure = (max: number) =>
  mostly(
    fc.oneof(fc.integer({ min: 0, max }), fc.double({ min: 0, max, noNaN: true })),
    fc.constantFrom(-1, -0, 5e-324, 1e308, max + 1, -max),
  );
/** Records of right and wrong fields; now and then one field is anything at all. */
const object = (fields: Record<string, fc.Arbitrary<unknown>>, requiredKeys = Object.keys(fields)) =>
  fc
    .tuple(
      fc.record(fields, { requiredKeys }),
      seldom(9, fc.tuple(fc.oneof(fc.constantFrom(...Object.keys(fields)), hostileText), hostileValue)),
    )
    .map(([value, wrong]) => (wrong === null ? value : { ...value, [wrong[0]]: wrong[1] }));

const notes = mostly(fc.constant('to be seen, again'), hostileText);
const steps: Record<(typeof testSteps)[number], Record<string, fc.Arbitrary<unknown>>> = {
  fluid: {
    level: fc.constantFrom('low', 'right', 'high', 'not_checked'),
    colour: fc.constantFrom('red', 'brown', 'milky'),
    smell: fc.constantFrom('usual', 'burnt'),
  },
  road_test: { duty_pct: figure(100), slip_rpm: figure(900), seconds: figure(120), falls: fc.boolean() },
  solenoid_current: {
    off_a: figure(5),
    on_a: figure(5),
    supply_v: figure(30),
    click: fc.constantFrom('heard', 'not_heard'),
  },
  pressure: {
    place: fc.constantFrom('line', 'cooler_line', 'clutch_port'),
    unit: fc.constantFrom('bar', 'kpa', 'psi'),
    off: figure(40),
    on: figure(40),
    smallest_step: figure(2),
  },
  pan: { debris: fc.constantFrom('none', 'fine', 'lining', 'metal') },
  cooler: { litres: figure(20), seconds: figure(60) },
};
const hasQuestions: readonly string[] = ['road_test', 'solenoid_current', 'pressure', 'cooler'];
const findingBody = fc.constantFrom(...testSteps).chain((step) =>
  object(
    {
      step: fc.constant(step),
      notes,
      ...(hasQuestions.includes(step) ? { as_measured: fc.boolean() } : {}),
      ...steps[step],
    },
    ['step', ...Object.keys(steps[step])],
  ),
);
const part = object(
  {
    kind: fc.constantFrom(...partKinds),
    what: notes,
    source: fc.constantFrom('new', 'rebuilt', 'used'),
    supplier: fc.constantFrom('', 'Corvan'),
    run_km: maybe(figure(900_000)),
    price: maybe(figure(5000)),
    core_deposit: maybe(figure(5000)),
    core: fc.constantFrom(...coreStates),
  },
  ['kind', 'source'],
);
const cooler = object(
  {
    done: fc.constantFrom('replaced', 'flushed', 'not_done'),
    minutes: maybe(figure(1440)),
    method: maybe(fc.constantFrom('pumped_through_filter', 'compressed_air')),
    both_directions: fc.boolean(),
    filter_clean: fc.boolean(),
    flow_after_l_min: maybe(figure(100)),
  },
  ['done'],
);
const reportBody = object(
  {
    parts: fc.array(part, { maxLength: 3 }),
    cooler: maybe(cooler),
    teardown: object({ cause: maybe(fc.constantFrom(...causes)), cut_open: fc.boolean(), notes }, []),
  },
  ['parts'],
);
const closeBody = object(
  {
    outcome: fc.constantFrom(...outcomes),
    odometer_km: mostly(fc.integer({ min: 79_000, max: 83_000 }), fc.constantFrom(-1, 0, 1e308, 50_000)),
    work_at: fc.constantFrom('2026-03-04T08:00:00Z', '0000-01-01T00:00:00Z', '9999-12-31T23:59:59-23:59'),
    ended: fc.constantFrom('failed', 'preventive'),
    old_converter: object({ fitted_km: figure(90_000), source: fc.constantFrom('original', 'used') }),
    reason: notes,
    calm_km: mostly(fc.constant(5000), fc.constantFrom(0, 499, 1e9)),
    without_cooler: notes,
    as_measured: fc.boolean(),
  },
  ['outcome', 'odometer_km'],
);
/** One that nothing stands against, so that some jobs do close. */
const plainClose = fc.record({
  outcome: fc.constantFrom('no_fault_found', 'declined'),
  odometer_km: fc.integer({ min: 80_000, max: 83_000 }),
  reason: fc.constant('Sold as it stands'),
  without_cooler: fc.constant('No work was done'),
  as_measured: fc.constant(true),
});
const linkBody = object({ label: notes, days: figure(90), may_report: fc.boolean() }, ['label']);

interface Call {
  method: string;
  /** behind the number of the packet */
  path: string;
  body: unknown;
}
const call = (weight: number, method: string, path: string, body: fc.Arbitrary<unknown>) => ({
  weight,
  arbitrary: body.map((one): Call => ({ method, path, body: one })),
});
const anyCall = fc.oneof(
  call(8, 'POST', 'findings', findingBody),
  call(4, 'PUT', 'report', reportBody),
  call(4, 'POST', 'close', closeBody),
  call(1, 'POST', 'close', plainClose),
  call(1, 'PUT', 'core', object({ part: figure(4), core: fc.constantFrom(...coreStates) })),
  call(2, 'POST', 'links', linkBody),
  call(
    2,
    'OPEN',
    '',
    object({
      vehicle: mostly(
        fc.integer({ min: 0, max: VEHICLES - 1 }).map((i) => `v${i}`),
        hostileText,
      ),
    }),
  ),
);
const asked = fc.record({
  call: anyCall,
  /** which of the packets, the open ones first */
  which: fc.integer({ min: 0, max: VEHICLES + 3 }),
  isStale: fc.integer({ min: 0, max: 9 }).map((n) => n === 0),
  wrongId: seldom(20, fc.constantFrom('0', '-1', '1e3', '9007199254740993', 'x', '%00', '%F0')),
  /** stands for the body */
  raw: seldom(
    15,
    fc.oneof(
      jsonToken.map((text) => Buffer.from(text)),
      mutated(findingBody.map((one) => Buffer.from(JSON.stringify(one)))),
    ),
  ),
});

/** What a refused call, and one that was answered with a question, must leave as it was. */
async function countRows(): Promise<string> {
  const rows = await app.client`
    select (select count(*) from packets) as packets, (select sum(version) from packets) as versions,
      (select count(*) from findings) as findings, (select count(*) from packet_files) as files,
      (select count(*) from packet_links) as links, (select count(*) from lives) as lives,
      (select count(*) from changes) as changes`;
  return JSON.stringify(rows[0]);
}

/** What must be true of packets whatever was asked. */
async function holdWhole(said: string): Promise<void> {
  const [row] = await app.client`
    select
      (select count(*) from packets where (state = 'closed') <> (outcome is not null and closed_at is not null
        and closed_by is not null and work_at is not null and odometer_km is not null)) as half_closed,
      (select count(*) from packets p where new_life_km is not null and not exists (
        select from lives l where l.vehicle = p.vehicle and l.fitted_km = p.new_life_km)) as without_life,
      (select count(*) from (select from packets where state = 'open' group by vehicle having count(*) > 1) o) as doubled,
      (select count(*) from findings where (trace is null) <> (file is null)) as without_file,
      (select count(*) from packet_files where length(digest) <> 32 or length(content) = 0) as empty`;
  hold(
    Object.values(row ?? {}).every((n) => Number(n) === 0),
    () => `${said} left ${JSON.stringify(row)}`,
  );
}

const replies: Record<string, { safeParse: (value: unknown) => { success: boolean } }> = {
  findings: recorded,
  report: packet,
  close: closed,
  core: packet,
  '': packet,
};

async function holdCall(said: string, before: string, answer: Answer, path: string): Promise<void> {
  const { status, text } = answer;
  const reply = status === 200 ? (JSON.parse(text) as { kind?: string }) : null;
  if (reply === null || reply.kind === 'asked') holdEqual(await countRows(), before);
  const schema = replies[path];
  if (reply !== null && schema !== undefined)
    hold(schema.safeParse(reply).success, () => `${said}: ${text.slice(0, 500)}`);
  await holdWhole(said);
}

it('records, reports, closes and shares by any body, and keeps nothing by halves', async () => {
  await fuzz('packet', asked, async ({ call: { method, path, body }, which, isStale, wrongId, raw }) => {
    const [row] = await app.client<{ id: string; version: number }[]>`
      select id, version from packets order by state = 'open' desc, id limit 1 offset
        ${which} % (select count(*) from packets)`;
    const id = wrongId ?? row?.id ?? '1';
    const versioned = path === 'report' || path === 'close';
    const full = versioned ? { version: (row?.version ?? 1) - (isStale ? 1 : 0), ...(body as object) } : body;
    const address = method === 'OPEN' ? '/api/packets' : `/api/packets/${id}/${path}`;
    const bytes = raw ?? Buffer.from(JSON.stringify(full));
    const said = `${method} ${address} ${bytes.toString('latin1').slice(0, 1000)}`;
    const before = await countRows();
    const answer = await holdAnswer(
      await app.ask(address, {
        method: method === 'OPEN' ? 'POST' : method,
        headers: { 'content-type': 'application/json', 'content-length': String(bytes.length) },
        body: new Uint8Array(bytes),
      }),
      said,
    );
    await holdCall(said, before, answer, path);
    if (method === 'OPEN' || wrongId !== null) return;
    const shown = await holdAnswer(await app.ask(`/api/packets/${id}`), said);
    hold(packet.safeParse(JSON.parse(shown.text)).success, () => `${said}: then ${shown.text.slice(0, 500)}`);
  });
  // Not all of them were refused.
  const [row] = await app.client`
    select count(*) filter (where state = 'closed')::int as closed, (select count(*)::int from findings) as findings,
      (select count(*)::int from packet_links) as links from packets`;
  expect(row?.findings).toBeGreaterThan(5);
  expect(row?.closed).toBeGreaterThan(0);
  expect(row?.links).toBeGreaterThan(0);
});

/** Halves of characters have no form in an address. */
const encode = (text: string): string => encodeURIComponent(text.replaceAll(/[\ud800-\udfff]/g, '-'));

const queryValue = fc.oneof(
  fc.constantFrom('v1', 'A', '1', '200', '0', '-1', '1e9', 'metric', 'imperial', ...packetStates),
  hostileText,
);
const otherPath = fc.oneof(
  fc
    .dictionary(fc.constantFrom('state', 'vehicle', 'depot', 'limit', 'units', 'x'), queryValue)
    .map((query) => `/api/packets?${new URLSearchParams(query)}`),
  fc
    .tuple(
      fc.oneof(fc.integer({ min: 1, max: 14 }).map(String), queryValue).map(encode),
      fc.constantFrom(
        '',
        '/series',
        '/links',
        '/files/1',
        '/files/x',
        '/findings/1/trace',
        '/findings/0/trace',
      ),
    )
    .map(([id, rest]) => `/api/packets/${id}${rest}`),
);

it('lists and shows packets for any query, and opens nothing for a made-up link', async () => {
  await fuzz('packet', fc.tuple(otherPath, hostileText), async ([path, secret]) => {
    const { status, text } = await holdAnswer(await app.ask(path), path);
    if (status === 200 && path.startsWith('/api/packets?'))
      hold(packetList.safeParse(JSON.parse(text)).success, () => `${path}: ${text.slice(0, 500)}`);
    const authorization = `Bearer packet_${Buffer.from(secret).toString('base64url').padEnd(43, 'A').slice(0, 43)}`;
    const opened = await app.askAsNobody('/api/packet-by-link', {
      headers: { authorization, 'x-forwarded-for': `10.${secret.length % 250}.${path.length % 250}.7` },
    });
    hold(opened.status >= 400, () => `${authorization} opened a packet`);
    await holdAnswer(opened, authorization);
  });
});

const HEADER = 'time_s,throttle_pct,speed_kmh,slip_rpm,duty_pct,fluid_c';
const rowsOf = (step: number, slip: number, rows: number) =>
  Array.from({ length: rows }, (_, i) => `${(i * step).toFixed(2)},30,70,${slip + (i % 3)},85,82`);
const goodTrace = fc
  .tuple(
    fc.constantFrom(0.1, 0.5, 1, 7),
    fc.constantFrom(-40, 0, 12, 400),
    fc.integer({ min: 0, max: 300 }),
    fc.constantFrom(HEADER, HEADER.replaceAll(',', ';'), HEADER.replace('slip', 'engine'), ''),
  )
  .map(([step, slip, rows, header]) => Buffer.from([header, ...rowsOf(step, slip, rows)].join('\n')));
/** One red pixel as PNG; the heads of JPEG and WebP with a size of 16 by 16. */
const pictures = [
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAIAAACQd1PeAAAADElEQVR4nGP4z8AAAAMBAQDJ/pLvAAAAAElFTkSuQmCC',
  '/9j/4AAQSkZJRgABAQAAAQABAAD/wAARCAAQABADASIAAhEBAxEB/9k=',
  'UklGRiQAAABXRUJQVlA4IBgAAAAwAQCdASoQABAAAgA0JaQAA3AA/vv9UAA=',
].map((text) => Buffer.from(text, 'base64'));
const file = fc.oneof(
  { weight: 4, arbitrary: goodTrace },
  { weight: 4, arbitrary: mutated(goodTrace) },
  { weight: 3, arbitrary: fc.constantFrom(...pictures) },
  { weight: 5, arbitrary: mutated(fc.constantFrom(...pictures)) },
  { weight: 2, arbitrary: fc.uint8Array({ maxLength: 400 }).map((bytes) => Buffer.from(bytes)) },
  { weight: 1, arbitrary: hostileText.map((text) => Buffer.from(text)) },
);
const sent = fc.record({
  what: fc.constantFrom('road-test', 'photos'),
  which: fc.integer({ min: 0, max: VEHICLES + 3 }),
  bytes: file,
  packed: fc.constantFrom('no', 'no', 'no', 'yes', 'lied'),
  type: mostly(
    fc.constant('right'),
    fc.constantFrom('text/html', 'image/svg+xml', ';', 'text/csv; charset=utf-16'),
  ),
  name: fc.option(hostileText, { nil: undefined }),
  asMeasured: fc.boolean(),
});

it('takes any bytes as a road test or a photograph, or refuses them whole, and gives back what it kept', async () => {
  await fuzz('packetFile', sent, async ({ what, which, bytes, packed, type, name, asMeasured }) => {
    const [row] = await app.client<{ id: string }[]>`
      select id from packets order by state = 'open' desc, id limit 1 offset
        ${which} % (select count(*) from packets)`;
    const query = new URLSearchParams({
      ...(name === undefined ? {} : { name }),
      ...(what === 'road-test' ? { as_measured: String(asMeasured) } : {}),
    });
    const address = `/api/packets/${row?.id}/${what}?${query}`;
    const body = packed === 'yes' ? gzipSync(bytes) : bytes;
    const said = `POST ${address} ${packed} ${String(type)} ${bytes.toString('latin1').slice(0, 600)}`;
    const right = what === 'photos' ? 'image/jpeg' : 'text/csv';
    const before = await countRows();
    const answer = await holdAnswer(
      await app.ask(address, {
        method: 'POST',
        headers: {
          'content-type': type === 'right' ? right : String(type),
          ...(packed === 'no' ? {} : { 'content-encoding': 'gzip' }),
        },
        body: new Uint8Array(body),
      }),
      said,
    );
    await holdCall(said, before, answer, '-');
    if (answer.status !== 200) return;
    if (what === 'photos') {
      const kept = packetFile.parse(JSON.parse(answer.text));
      const back = await app.ask(`/api/packets/${row?.id}/files/${kept.id}`);
      holdEqual(Buffer.from(await back.arrayBuffer()).toString('latin1'), bytes.toString('latin1'));
      hold(/^image\/(jpeg|png|webp)$/.test(kept.type), () => `${said} is ${kept.type}`);
    } else hold(recorded.safeParse(JSON.parse(answer.text)).success, () => `${said}: ${answer.text}`);
  });
  const rows =
    await app.client`select kind, count(*)::int as n from packet_files group by kind order by kind`;
  expect(rows.map(({ kind }) => kind)).toEqual(['photo', 'trace']);
});
