import { gzipSync } from 'node:zlib';
import fc from 'fast-check';
import { afterAll, beforeAll, it } from 'vitest';
import { fuzz, hold } from './fuzz.ts';
import { holdAnswer } from './hold-answer.ts';
import { hostileText } from './hostile-values.ts';
import { goodReading } from './reading-arbitraries.ts';
import { type FuzzedApp, startFuzzedApp } from './start-fuzzed-app.ts';

let app: FuzzedApp;
beforeAll(async () => {
  app = await startFuzzedApp();
});
afterAll(() => app.stop());

/** What may stand in a header at all: bytes without line ends and zeros. */
const headerText = hostileText.map((text) => text.replace(/[^\x20-\x7e\x80-\xff\t]/g, 'ÿ').trim());
const type = fc.oneof(
  fc.constantFrom(
    'application/json',
    'APPLICATION/JSON; charset=UTF-8',
    'application/json;charset="utf-8"',
    'application/json; charset=utf-16',
    'application/json; charset=latin1',
    'application/x-ndjson',
    'text/csv; header=present',
    'text/csv; charset=windows-1252',
    'multipart/form-data; boundary=x',
    'application/json, text/csv',
    ';',
    'application/problem+json',
  ),
  headerText,
);
const encoding = fc.oneof(
  fc.constantFrom('gzip', 'GZIP', 'x-gzip', 'identity', '', 'deflate', 'br', 'gzip, gzip', 'gzip;q=1'),
  headerText,
);
const others = fc.dictionary(
  fc.constantFrom(
    'x-request-id',
    'accept',
    'accept-encoding',
    'accept-language',
    'if-none-match',
    'range',
    'expect',
    'cookie',
    'origin',
    'x-forwarded-for',
    'forwarded',
    'traceparent',
  ),
  headerText,
  { maxKeys: 3 },
);
const headers = fc
  .record(
    { 'content-type': type, 'content-encoding': encoding, 'idempotency-key': headerText },
    { requiredKeys: [] },
  )
  .chain((named) => others.map((more) => ({ ...more, ...named })));
const paths = fc.constantFrom(
  '/api/readings',
  '/api/readings',
  '/api/depots',
  '/api/analysis/trend',
  '/api/assess',
  '/api/codes',
);

it('takes any headers with a delivery or a call, and answers', async () => {
  const body = fc
    .tuple(
      fc.array(goodReading(undefined, 2025), { maxLength: 3 }),
      fc.constantFrom('json', 'ndjson', 'gzip', 'none'),
    )
    .map(([readings, how]) => {
      const text =
        how === 'ndjson' ? readings.map((one) => JSON.stringify(one)).join('\n') : JSON.stringify(readings);
      return how === 'none' ? Buffer.alloc(0) : how === 'gzip' ? gzipSync(text) : Buffer.from(text);
    });
  await fuzz('headers', fc.tuple(paths, headers, body), async ([path, sent, bytes]) => {
    const asked = `POST ${path} ${JSON.stringify(sent)}`;
    const length = { 'content-length': String(bytes.length) };
    const answer = await holdAnswer(
      await app.ask(path, { method: 'POST', headers: { ...sent, ...length }, body: new Uint8Array(bytes) }),
      asked,
    );
    if (answer.status !== 200 || path !== '/api/readings') return;
    const { received, stored, duplicate, refused } = JSON.parse(answer.text);
    hold(received === stored + duplicate + refused, () => `${asked}: ${answer.text}`);
  });
});
