import fc from 'fast-check';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { fuzz } from './fuzz.ts';
import { holdAnswer } from './hold-answer.ts';
import { hostileText, numberToken } from './hostile-values.ts';
import { goodReading } from './reading-arbitraries.ts';
import { type FuzzedApp, startFuzzedApp } from './start-fuzzed-app.ts';

interface Parameter {
  name: string;
  in: string;
  schema?: { enum?: unknown[]; default?: unknown; minimum?: number; maximum?: number };
}
interface Call {
  path: string;
  parameters: Parameter[];
}

let app: FuzzedApp;
let calls: Call[];
beforeAll(async () => {
  app = await startFuzzedApp();
  calls = await listCalls();
  await fillFleet();
});
afterAll(() => app.stop());

/** All calls that only read, as the interface describes itself, so that later ones are met too. */
async function listCalls(): Promise<Call[]> {
  const document = await (await app.ask('/api/openapi.json')).json();
  const paths = document.paths as Record<
    string,
    { get?: { parameters?: Parameter[] }; parameters?: Parameter[] }
  >;
  return Object.entries(paths).flatMap(([path, { get, parameters = [] }]) =>
    get === undefined ? [] : [{ path, parameters: [...parameters, ...(get.parameters ?? [])] }],
  );
}

async function fillFleet(): Promise<void> {
  const post = async (path: string, body: unknown) => {
    const headers = { 'content-type': 'application/json' };
    const answer = await app.ask(path, { method: 'POST', headers, body: JSON.stringify(body) });
    if (answer.status !== 200) throw new Error(`POST ${path}: ${await answer.text()}`);
  };
  await post('/api/depots', { id: 'yard', name: 'Yard' });
  await post('/api/platforms', { id: 'type-a', name: 'Type A' });
  await post('/api/vehicles', { id: 'B-1', platform: 'type-a', depot: 'yard' });
  const readings = fc.sample(goodReading(fc.constantFrom('B-1', 'B-2'), 2025), { numRuns: 300, seed: 5 });
  await post('/api/readings', readings);
  await post('/api/assess', {});
}

const ID = /\b(vehicles|receipts|platforms|codes)\b/;
const known = fc.constantFrom(
  'B-1',
  'B-2',
  'type-a',
  'yard',
  'P0741',
  '-',
  '00000000-0000-0000-0000-000000000000',
);
/** Halves of surrogate pairs have no encoding; they go as the mark for what cannot be read. */
const encode = (text: string): string => encodeURIComponent(Buffer.from(text).toString());
const broken = fc.constantFrom(
  '%00',
  '%',
  '%zz',
  '%E0%A4%A',
  '%ED%A0%80',
  '%2F..%2f',
  '%0d%0aX:1',
  '+',
  '%25',
);
/** A value of a parameter, encoded as a sender should, or not. */
const encoded = fc.oneof(
  {
    weight: 3,
    arbitrary: fc.oneof(hostileText, numberToken).map((text) => encode(text)),
  },
  { weight: 2, arbitrary: known },
  { weight: 2, arbitrary: broken },
);

const query = (parameters: Parameter[]): fc.Arbitrary<string> => {
  const named = parameters.filter((one) => one.in === 'query');
  const pairs = named.map(({ name, schema }) => {
    const described = [...(schema?.enum ?? []), schema?.default, schema?.minimum, schema?.maximum].filter(
      (value) => value !== undefined,
    );
    const good = described.length === 0 ? known : fc.constantFrom(...described.map(String));
    return fc.oneof(good, encoded).map((value) => `${name}=${value}`);
  });
  const others = fc.tuple(hostileText, encoded).map(([name, value]) => `${encode(name)}=${value}`);
  // Named ones come twice at times, and so do strange ones.
  return fc
    .array(pairs.length === 0 ? others : fc.oneof(...pairs, others), { maxLength: 4 })
    .map((all) => all.join('&'));
};

it('answers every call that reads, whatever its parameters, and never with a fault of its own', async () => {
  expect(calls.length).toBeGreaterThan(10);
  const asked = fc.constantFrom(...calls).chain(({ path, parameters }) => {
    const parts = path.split('/').map((part) => (part.startsWith('{') ? encoded : fc.constant(part)));
    return fc
      .tuple(fc.tuple(...parts), query(parameters))
      .map(([all, search]) => `${all.join('/')}?${search}`);
  });
  await fuzz('query', asked, async (address) => {
    await holdAnswer(await app.ask(address), address);
  });
});

it('answers any path and method', async () => {
  const segment = fc.oneof(
    encoded,
    fc.constantFrom('api', 'vehicles', 'assets', 'health', '..', '.', 'index.html', ''),
  );
  const asked = fc.tuple(
    fc.array(segment, { maxLength: 5 }),
    fc.constantFrom('GET', 'HEAD', 'DELETE', 'PUT', 'PATCH', 'OPTIONS'),
  );
  await fuzz('path', asked, async ([segments, method]) => {
    const path = `/${segments.join('/')}`;
    // Deleting is a call of its own; a code that is there may go.
    const response = await app.ask(path.replace(/^\/+/, '/'), { method });
    if (method === 'HEAD' || method === 'OPTIONS') {
      expect(response.status).toBeLessThan(500);
      return;
    }
    if (!ID.test(path) && response.headers.get('content-type')?.startsWith('text/html')) return;
    await holdAnswer(response, `${method} ${path}`);
  });
});
