import fc from 'fast-check';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { fuzz, hold } from './fuzz.ts';
import { holdAnswer } from './hold-answer.ts';
import { hostileText, hostileValue } from './hostile-values.ts';
import { type FuzzedApp, startFuzzedApp } from './start-fuzzed-app.ts';

interface Schema {
  $ref?: string;
  properties?: Record<string, Schema>;
  enum?: unknown[];
  anyOf?: Schema[];
}
interface Operation {
  requestBody?: { content: Record<string, { schema: Schema }> };
}
interface Call {
  method: string;
  path: string;
  fields: Record<string, Schema>;
}

/** Bodies of these have files of their own. */
const ELSEWHERE = /^\/api\/(readings|platforms|depots|vehicles|lives|codes|analysis\/trend)$/;

let app: FuzzedApp;
let calls: Call[];
beforeAll(async () => {
  app = await startFuzzedApp();
  calls = await listCalls();
});
afterAll(() => app.stop());

/** Every other call with a JSON body, as the interface describes itself, so that later ones are met too. */
async function listCalls(): Promise<Call[]> {
  const document = await (await app.ask('/api/openapi.json')).json();
  const resolve = (schema: Schema): Schema =>
    schema.$ref === undefined ? schema : document.components.schemas[schema.$ref.split('/').at(-1) ?? ''];
  return Object.entries<Record<string, Operation>>(document.paths).flatMap(([path, item]) =>
    Object.entries(item).flatMap(([method, { requestBody }]) => {
      const schema = requestBody?.content['application/json']?.schema;
      if (schema === undefined || ELSEWHERE.test(path)) return [];
      return [{ method: method.toUpperCase(), path, fields: resolve(schema).properties ?? {} }];
    }),
  );
}

const usual = fc.constantFrom<unknown>(
  'ada@tests.example',
  'ADA@TESTS.EXAMPLE',
  'a password of the tests',
  'Ada',
  null,
  true,
  60,
  ['yard'],
  '2031-01-01T00:00:00Z',
  '/platforms',
  'x'.repeat(32),
);

const fieldValue = (schema: Schema): fc.Arbitrary<unknown> => {
  const named = [...(schema.enum ?? []), ...(schema.anyOf ?? []).flatMap((one) => one.enum ?? [])];
  return fc.oneof(
    { weight: 6, arbitrary: named.length === 0 ? usual : fc.constantFrom(...named) },
    { weight: 1, arbitrary: hostileText },
    { weight: 1, arbitrary: hostileValue },
  );
};

const bodyOf = ({ fields }: Call): fc.Arbitrary<string> =>
  fc.oneof(
    {
      weight: 8,
      arbitrary: fc
        .record(
          Object.fromEntries(Object.entries(fields).map(([name, schema]) => [name, fieldValue(schema)])),
          {
            requiredKeys: [],
          },
        )
        .map((one) => JSON.stringify(one)),
    },
    { weight: 1, arbitrary: fc.json() },
    { weight: 1, arbitrary: hostileText },
  );

it('answers calls about people, keys and the shop whatever their bodies say', async () => {
  expect(calls.map(({ path }) => path)).toEqual(
    expect.arrayContaining(['/api/session', '/api/people', '/api/keys', '/api/vehicles/{id}/shop']),
  );
  const asked = fc.constantFrom(...calls).chain((call) =>
    fc.record({
      call: fc.constant(call),
      body: bodyOf(call),
      id: fc.oneof(fc.constantFrom('B-1', 'none'), fc.uuid()),
      // Each comes from another address, so that few are held back for having tried too often.
      from: fc.ipV4(),
    }),
  );
  await fuzz('access', asked, async ({ call: { method, path }, body, id, from }) => {
    const answer = await app.ask(path.replace(/\{\w+\}/g, encodeURIComponent(id)), {
      method,
      headers: { 'content-type': 'application/json', 'x-forwarded-for': from },
      body: Buffer.from(body),
    });
    await holdAnswer(answer, `${method} ${path} ${body}`);
  });
});

const headerText = fc.oneof(
  hostileText,
  fc.constantFrom(
    'slipdrift.session_token=',
    'slipdrift.session_token=a.b',
    'slipdrift.session_token=%00; slipdrift.session_token=%zz',
    'Bearer ',
    'Bearer slipdrift_000000000000_',
    `Bearer slipdrift_${'0'.repeat(12)}_${'A'.repeat(43)}`,
    `Bearer slipdrift_' or 1=1--_${'A'.repeat(43)}`,
    'Basic YTpi',
  ),
  fc.string({ maxLength: 200 }).map((text) => `slipdrift.session_token=${encodeURIComponent(text)}`),
  fc.string({ maxLength: 60 }).map((text) => `Bearer ${text}`),
);

it('lets in nobody by a cookie, a key or an origin that is made up', async () => {
  const asked = fc.record({
    headers: fc
      .record(
        { cookie: headerText, authorization: headerText, origin: headerText, 'x-forwarded-for': headerText },
        { requiredKeys: [] },
      )
      .filter(isSendable),
    call: fc.constantFrom(['GET', '/api/ranking'], ['GET', '/api/people'], ['DELETE', '/api/sessions']),
  });
  await fuzz('credentials', asked, async ({ headers, call: [method = '', path = ''] }) => {
    const answer = await app.askAsNobody(path, { method, headers });
    hold(answer.status === 401 || answer.status === 403, () => `${path} was answered ${answer.status}`);
    await holdAnswer(answer, `${method} ${path} ${JSON.stringify(headers)}`);
  });
});

/** A header of other characters never leaves a sender. */
function isSendable(headers: Record<string, string | undefined>): boolean {
  try {
    new Headers(headers as Record<string, string>);
    return true;
  } catch {
    return false;
  }
}
