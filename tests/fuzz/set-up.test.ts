import fc from 'fast-check';
import { afterAll, beforeAll, it } from 'vitest';
import { fuzz, hold, holdEqual } from './fuzz.ts';
import { holdAnswer } from './hold-answer.ts';
import { hostileText, hostileValue, jsonToken } from './hostile-values.ts';
import { mutated } from './mutate-bytes.ts';
import { type FuzzedApp, startFuzzedApp } from './start-fuzzed-app.ts';

let app: FuzzedApp;
beforeAll(async () => {
  app = await startFuzzedApp();
});
afterAll(() => app.stop());

const name = fc.oneof(fc.constantFrom('A', 'b-2', 'Typ 3', 'ü'), hostileText);
/** Mostly within bounds: a call is refused for its first fault, and then nothing else of it is tried. */
const number = (max: number) =>
  fc.oneof(
    { weight: 12, arbitrary: fc.integer({ min: 1, max }) },
    { weight: 1, arbitrary: fc.double({ noNaN: true }) },
    { weight: 1, arbitrary: fc.constantFrom(-1, 0, -0, 5e-324, 1e308, 0.1 + 0.2, max + 1) },
  );
const words = fc.oneof(fc.constantFrom('Typ 3', 'ü'), hostileText, hostileText);
const time = fc.constantFrom(
  '2024-02-29T00:00:00Z',
  '0000-01-01T00:00:00Z',
  '0001-01-01T00:00:00+14:00',
  '9999-12-31T23:59:59-23:59',
  '2023-02-29T00:00:00Z',
  '1969-12-31T23:59:59.999999999Z',
  '2026-03-04',
);
const maybe = <T>(arbitrary: fc.Arbitrary<T>) => fc.option(arbitrary, { nil: null, freq: 6 });
const object = (fields: Record<string, fc.Arbitrary<unknown>>, needed: string[]) =>
  fc
    .tuple(
      fc.record(fields, { requiredKeys: needed }),
      fc.oneof(
        { weight: 3, arbitrary: fc.constant<[string, unknown][]>([]) },
        {
          weight: 1,
          arbitrary: fc
            .tuple(fc.oneof(fc.constantFrom(...Object.keys(fields)), hostileText), hostileValue)
            .map((one) => [one] as [string, unknown][]),
        },
      ),
    )
    .map(([value, wrong]) => ({ ...value, ...Object.fromEntries(wrong) }));

const platform = object(
  {
    id: name,
    name: words,
    limit_rpm: number(5000),
    band_edges_pct: fc.oneof(
      fc.constant([40, 60, 100]),
      fc
        .uniqueArray(fc.integer({ min: 0, max: 100 }), { maxLength: 5 })
        .map((edges) => edges.sort((a, b) => a - b)),
    ),
    reference: fc.record(
      { duty_pct: number(100), load_pct: number(100), fluid_c: number(120) },
      { requiredKeys: [] },
    ),
    gate: fc.record({ cold_fluid_c: number(60), duty_window_s: number(600) }, { requiredKeys: [] }),
    life_km: maybe(number(900_000)),
    solenoid: maybe(
      fc.record(
        { ohm: number(50), supply_v: number(30), wiring_ohm: number(5), tolerance_pct: number(90) },
        { requiredKeys: ['ohm'] },
      ),
    ),
    converter: maybe(
      fc.record(
        { price: number(900), core_deposit: number(900), spare_cores: number(9) },
        { requiredKeys: [] },
      ),
    ),
    costs: fc.record({ inspection: number(900) }, { requiredKeys: [] }),
  },
  ['id', 'name'],
);
const zone = fc.constantFrom('UTC', 'Europe/Vienna', 'europe/vienna', '+05:45', 'GMT+1', 'Mars/North', '');
const depot = object({ id: name, name: words, bays: number(40), time_zone: fc.oneof(zone, hostileText) }, [
  'id',
  'name',
]);
const vehicle = object(
  { id: name, depot: maybe(name), platform: maybe(name), vin: maybe(hostileText), retired: fc.boolean() },
  ['id'],
);
const life = object(
  {
    vehicle: name,
    fitted_km: number(900_000),
    fitted_at: maybe(time),
    source: fc.constantFrom('new', 'remanufactured', 'unknown', 'used'),
    removed_km: maybe(number(900_000)),
    removed_at: maybe(time),
    ended: maybe(fc.constantFrom('failed', 'planned', 'removed', 'sold')),
    mode: maybe(hostileText),
    supplier: maybe(hostileText),
  },
  ['vehicle', 'fitted_km', 'source'],
);
const code = object(
  {
    code: fc.constantFrom('P0741', 'SPN 573 FMI 7', 'spn573', '1/2', 'X', ''),
    meaning: words,
    source: words,
    counts: fc.boolean(),
  },
  ['code'],
);

const oneOrMany = (element: fc.Arbitrary<unknown>) => fc.oneof(element, fc.array(element, { maxLength: 4 }));
const call = fc
  .oneof(
    ...Object.entries({
      platforms: platform,
      depots: depot,
      vehicles: vehicle,
      lives: life,
      codes: code,
    }).map(([path, element]) => fc.tuple(fc.constant(`/api/${path}`), oneOrMany(element))),
  )
  .chain(([path, value]) => {
    const good = fc.constant(Buffer.from(JSON.stringify(value)));
    const body = fc.oneof(
      { weight: 8, arbitrary: good },
      { weight: 2, arbitrary: mutated(good) },
      { weight: 1, arbitrary: jsonToken.map((text) => Buffer.from(text)) },
    );
    return fc.tuple(fc.constant(path), body);
  });

/** What a refused call must leave as it was. */
async function countRows(): Promise<string> {
  const rows = await app.client`
    select (select count(*) from platforms) as platforms, (select count(*) from depots) as depots,
      (select count(*) from vehicles) as vehicles, (select count(*) from lives) as lives,
      (select count(*) from trouble_codes) as codes`;
  return JSON.stringify(rows[0]);
}

it('sets up a fleet from any body, all or nothing, and gives back what it took', async () => {
  await fuzz('setUp', call, async ([path, body]) => {
    const asked = `POST ${path} ${body.toString('latin1').slice(0, 1000)}`;
    const before = await countRows();
    const headers = { 'content-type': 'application/json', 'content-length': String(body.length) };
    const { status, text } = await holdAnswer(
      await app.ask(path, { method: 'POST', headers, body: new Uint8Array(body) }),
      asked,
    );
    if (status !== 200) {
      holdEqual(await countRows(), before);
      return;
    }
    const { created, changed, unchanged } = JSON.parse(text);
    const sent: unknown = JSON.parse(body.toString());
    const elements = (Array.isArray(sent) ? sent : [sent]) as Record<string, unknown>[];
    hold(created + changed + unchanged === elements.length, () => `${asked}: ${text}`);
    if (path === '/api/lives' || path === '/api/vehicles') return;
    const listed = JSON.parse((await holdAnswer(await app.ask(path), path)).text) as Record<
      string,
      unknown
    >[];
    for (const element of elements) {
      const key = path === '/api/codes' ? 'meaning' : 'id';
      const wanted = element[key];
      if (typeof wanted !== 'string') continue;
      hold(
        listed.some((row) => row[key] === wanted.trim()),
        () => `${asked} is not listed`,
      );
    }
  });
});
