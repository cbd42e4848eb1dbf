import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type TrendReply, trendReply } from '#server/contract/analysis.ts';
import { type Problem, problem } from '#server/contract/problems.ts';
import { trendExample } from '#server/routes/trend-example.ts';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';
import { TEST_KEY } from '#tests/helpers/test-key.ts';

let app: TestApp;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app?.stop());

const post = (body: unknown) => app.post('/api/analysis/trend', body);

async function askFor(body: unknown): Promise<TrendReply> {
  const answer = await post(body);
  expect(answer.status).toBe(200);
  return trendReply.parse(await answer.json());
}

async function expectRefused(body: unknown, status = 400): Promise<Problem> {
  const answer = await post(body);
  expect(answer.status).toBe(status);
  expect(answer.headers.get('content-type')).toBe('application/problem+json');
  return problem.parse(await answer.json());
}

const index = (n: number) => Array.from({ length: n }, (_, i) => i);

function makeSeries(n: number, seed = n) {
  const random = seededRandom(seed);
  const x = index(n).map((i) => 3.5 * i + random.uniform());
  const y = x.map((_, i) => 10 + 3 * random.normal() + (10 * Math.max(0, i - 0.7 * n)) / n);
  return { x, y };
}

describe('a series', () => {
  it('is answered as the example of the description says', async () => {
    const reply = await askFor(trendExample.request);
    const flat = (value: object): [string, unknown][] =>
      Object.entries(value).flatMap(([key, part]) =>
        typeof part === 'object' && part !== null
          ? flat(part).map(([rest, one]): [string, unknown] => [`${key}.${rest}`, one])
          : [[key, part] as [string, unknown]],
      );
    const byName = ([a]: [string, unknown], [b]: [string, unknown]) => a.localeCompare(b);
    const [found, wanted] = [flat(reply).sort(byName), flat(trendExample.reply).sort(byName)];
    expect(found.map(([key]) => key)).toEqual(wanted.map(([key]) => key));
    for (const [i, [key, one]] of wanted.entries()) {
      if (typeof one === 'number') expect(found[i]?.[1], key).toBeCloseTo(one, 9);
      else expect(found[i]?.[1], key).toBe(one);
    }
  });

  it('may come in any order of x', async () => {
    const { x, y } = makeSeries(60);
    const turned = await askFor({ x: x.toReversed(), y: y.toReversed() });
    expect(turned).toEqual(await askFor({ x, y }));
  });

  it('has limits as wide as the confidence asked for', async () => {
    const series = makeSeries(80);
    const [narrow, wide] = [
      await askFor({ ...series, confidence: 0.5 }),
      await askFor({ ...series, confidence: 0.99 }),
    ];
    expect(narrow.theil_sen).toMatchObject({ confidence: 0.5, slope: wide.theil_sen?.slope });
    expect(narrow.theil_sen?.low ?? 0).toBeGreaterThan(wide.theil_sen?.low ?? 0);
    expect(narrow.hinge?.high ?? 0).toBeLessThan(wide.hinge?.high ?? 0);
    expect(narrow.hinge?.break).toBe(wide.hinge?.break);
  });

  it('of x with gaps counts each as one step for serial correlation', async () => {
    const { y } = makeSeries(50);
    const even = await askFor({ x: index(50), y });
    const gaps = await askFor({ x: index(50).map((i) => (i < 20 ? i : i + 300)), y });
    expect(gaps.hamed_rao).toEqual(even.hamed_rao);
  });
});

describe('the baseline of the charts', () => {
  // A seed without a false alarm: at these limits one comes in some 465 values, each chart.
  const random = seededRandom(7);
  const drift = index(60).map((i) => 20 + random.normal() + 0.8 * Math.max(0, i - 40));

  it('ends where a rise that is believed begins', async () => {
    const { hinge, cusum, ewma } = await askFor({ x: index(60), y: drift });
    const end = hinge?.break ?? 0;
    expect(end).toBeGreaterThan(35);
    const healthy = drift.filter((_, i) => i <= end).sort((a, b) => a - b);
    const middle = (healthy[(healthy.length - 1) >> 1] ?? 0) + (healthy[healthy.length >> 1] ?? 0);
    expect(cusum?.target).toBeCloseTo(middle / 2, 12);
    expect(cusum).toMatchObject({ k: 0.5, h: 5, target: ewma?.target, sd: ewma?.sd });
    // 40 values with a standard deviation of 1: the robust estimate has a standard error of some 0.18.
    expect(Math.abs((cusum?.sd ?? 0) - 1)).toBeLessThan(0.5);
    for (const alarm of [cusum?.first_alarm, ewma?.first_alarm]) {
      expect(alarm).toBeGreaterThan(40);
      expect(alarm).toBeLessThan(50);
    }
  });

  it('is the first third where nothing rises for certain', async () => {
    const y = [1, 2, 3, 2, 1, 2, 3, 2, 1, 2].concat(index(20).map((i) => 2 - (i % 3)));
    const { cusum } = await askFor({ x: index(30), y });
    // Median of the first ten, and 1.4826 times the median of 1, 0, 1, 0, 1, 0, 1, 0, 1, 0.
    expect(cusum).toMatchObject({ target: 2, sd: 1.4826 * 0.5 });
  });

  it('takes what is given and estimates the rest', async () => {
    const { cusum, ewma } = await askFor({
      x: index(60),
      y: drift,
      baseline: { target: 25 },
      cusum: { h: 4 },
    });
    expect(cusum).toMatchObject({ target: 25, h: 4, k: 0.5 });
    expect(cusum?.sd).toBe(ewma?.sd);
    expect(cusum?.first_alarm).toBeLessThan(40);
    const short = await askFor({ x: [1, 2, 3], y: [9, 9, 1], baseline: { target: 9, sd: 1 } });
    expect(short.ewma).toMatchObject({ first_alarm: 3, last: 0.2 * 1 + 0.8 * 9 });
  });
});

describe('a part that cannot be had', () => {
  it('is null and says why, what is needed and what there was', async () => {
    const reply = await askFor({ x: [1, 2, 3], y: [4, 5, 7] });
    expect(reply).toMatchObject({ n: 3, hinge: null, level_shift: null, cusum: null, ewma: null });
    expect(reply.declined).toEqual({
      hinge: { reason: 'too few points', needed: 'at least 5', got: '3' },
      level_shift: { reason: 'too few points', needed: 'at least 4', got: '3' },
      cusum: {
        reason: 'too few points for a baseline',
        needed: 'at least 8, or baseline.target and baseline.sd in the request',
        got: '3',
      },
      ewma: reply.declined.cusum,
    });
    expect(reply.ols?.slope).toBeCloseTo(1.5, 12);
    expect(reply.mann_kendall).toMatchObject({ s: 3, tau: 1 });
  });

  it('leaves the rest of a series of equal values', async () => {
    const reply = await askFor({ x: index(20), y: index(20).map(() => 7) });
    expect(reply.ols).toEqual({ slope: 0, intercept: 7, se_slope: 0, se_intercept: 0, r2: null });
    expect(reply.theil_sen).toMatchObject({ slope: 0, intercept: 7, low: 0, high: 0 });
    expect(reply.hinge).toMatchObject({ break: null, before: 7, slope_after: 0 });
    expect(reply.hinge?.p_against_flat).toBeGreaterThan(0.5);
    expect(reply.level_shift).toMatchObject({ before: 7, after: 7, p: 1, favours: 'neither' });
    expect(reply.declined).toMatchObject({
      mann_kendall: { reason: 'all y equal' },
      hamed_rao: { reason: 'all y equal' },
      cusum: { reason: 'baseline without scatter', got: '8 equal ones' },
    });
  });

  it('is serial correlation, of several values at one x', async () => {
    const { hamed_rao, declined, mann_kendall } = await askFor({ x: [1, 1, 2, 3, 4], y: [1, 2, 3, 4, 5] });
    expect([hamed_rao, mann_kendall?.s]).toEqual([null, 9]);
    expect(declined.hamed_rao).toMatchObject({ got: '5 values at 4 different x' });
  });

  it('is what goes beyond the numbers there are', async () => {
    const x = index(10);
    const reply = await askFor({ x: x.map((i) => i * 1e-170), y: x.map((i) => i % 3) });
    expect(reply.declined.ols?.reason).toBe('numbers too large or too small to compute with');
    expect(reply.mann_kendall).not.toBeNull();
  });
});

describe('a series is refused', () => {
  it.each<[string, unknown, string, string]>([
    [
      'with numbers whose sums go beyond all numbers',
      { x: [1, 2, 3], y: [1, 2, 1e61] },
      'y.2',
      'must be at most 1e+60',
    ],
    ['with two points', { x: [1, 2], y: [1, 2] }, 'x', 'has 2 values; a trend needs at least 3'],
    ['with none', { x: [], y: [] }, 'y', 'has 0 values'],
    ['with unequal lengths', { x: [1, 2, 3], y: [1, 2, 3, 4] }, 'y', 'has 4 values, but x has 3'],
    ['with one x throughout', { x: [5, 5, 5], y: [1, 2, 3] }, 'x', 'is 5 at every point'],
    ['with null', { x: [1, 2, 3], y: [1, null, 3] }, 'y.1', 'must be a finite number, not null'],
    ['with text', { x: [1, 2, '3'], y: [1, 2, 3] }, 'x.2', 'must be a finite number, not the text "3"'],
    ['with true', { x: [1, 2, 3], y: [1, 2, true] }, 'y.2', 'must be a finite number, not boolean'],
    ['with a list in it', { x: [1, 2, [3]], y: [1, 2, 3] }, 'x.2', 'must be a finite number, not a list'],
    ['with 1e999', '{"x":[1,2,3],"y":[1,1e999,3]}', 'y.1', 'not a number beyond 1.8e308'],
    ['without y', { x: [1, 2, 3] }, 'y', 'must be a list of numbers, not left out'],
    ['with y that is none', { x: [1, 2, 3], y: 7 }, 'y', 'must be a list of numbers, not 7'],
    ['that is a list', [1, 2, 3], '', 'must be an object, such as {"x": [1, 2, 3]'],
    ['that is null', 'null', '', 'must be an object'],
    [
      'with a misspelt field',
      { x: [1, 2, 3], y: [1, 2, 3], confidance: 0.9 },
      'confidance',
      'is not a known field',
    ],
    [
      'with 95 for 0.95',
      { x: [1, 2, 3], y: [1, 2, 3], confidence: 95 },
      'confidence',
      'above 0 and below 1, not 95',
    ],
    ['with a confidence of 1', { x: [1, 2, 3], y: [1, 2, 3], confidence: 1 }, 'confidence', 'below 1, not 1'],
    [
      'with an sd of 0',
      { x: [1, 2, 3], y: [1, 2, 3], baseline: { sd: 0 } },
      'baseline.sd',
      'must be above 0, not 0',
    ],
    [
      'with lambda of 2',
      { x: [1, 2, 3], y: [1, 2, 3], ewma: { lambda: 2 } },
      'ewma.lambda',
      'at most 1, not 2',
    ],
    ['with k below 0', { x: [1, 2, 3], y: [1, 2, 3], cusum: { k: -1 } }, 'cusum.k', '0 or more, not -1'],
  ])('%s', async (_, body, field, message) => {
    const refusal = await expectRefused(body);
    expect(refusal.code).toBe('invalid_request');
    expect(refusal.errors).toContainEqual({ field, message: expect.stringContaining(message) });
    expect(refusal.detail).toContain('Nothing was computed');
  });

  it('naming the first faults and counting the rest', async () => {
    const refusal = await expectRefused({ x: index(500), y: index(500).map(() => null) });
    expect(refusal.errors).toHaveLength(20);
    expect(refusal.detail).toContain('y.0 must be a finite number, not null (and 499 more)');
  });

  it('with more than 100,000 points', async () => {
    const x = index(100_001);
    const refusal = await expectRefused({ x, y: x });
    expect(refusal.code).toBe('invalid_request');
    expect(refusal.errors[0]?.message).toContain('has 100001 values; at most 100000');
  });

  it('in a body over 8 MiB, or over what any call takes', async () => {
    for (const mib of [9, 17]) {
      const refusal = await expectRefused(`{"x":[1,2,3],"y":[1,2,3]}${' '.repeat(mib * 1024 * 1024)}`, 413);
      expect(refusal.code).toBe('body_too_large');
    }
  });

  it.each([
    ['{"x":[1,2,3],"y":[1,NaN,3]}', 'body_broken', 'NaN and Infinity are no JSON'],
    ['{"x":[1,2,3],', 'body_broken', 'The body is not JSON'],
    ['x,y', 'body_broken', 'The body is not JSON'],
    ['', 'body_empty', 'The body is empty'],
    ['  ', 'body_empty', 'The body is empty'],
  ])('as the body %j', async (body, code, detail) => {
    expect(await expectRefused(body)).toMatchObject({ code, detail: expect.stringContaining(detail) });
  });

  it('as CSV', async () => {
    const answer = await app.post('/api/analysis/trend', 'x,y\n1,2', { 'content-type': 'text/csv' });
    expect(answer.status).toBe(415);
  });

  it('as GET', async () => {
    expect((await app.get('/api/analysis/trend')).status).toBe(405);
  });
});

it('asks for the key where one is set', async () => {
  const closed = await startApp({ apiKey: 'a-key-for-tests' });
  try {
    const without = await closed.post('/api/analysis/trend', trendExample.request);
    expect(without.status).toBe(401);
    const headers = { authorization: 'Bearer a-key-for-tests' };
    expect((await closed.post('/api/analysis/trend', trendExample.request, headers)).status).toBe(200);
  } finally {
    await closed.stop();
  }
});

it('is described with its schema and an example', async () => {
  const document = await (await app.get('/api/openapi.json')).json();
  const { requestBody, responses } = document.paths['/api/analysis/trend'].post;
  expect(requestBody.content['application/json']).toEqual({
    schema: { $ref: '#/components/schemas/TrendRequest' },
    example: trendExample.request,
  });
  expect(responses['200'].content['application/json'].example.n).toBe(20);
  expect(Object.keys(responses)).toEqual(['200', '400', '401', '403', '413', '415', '429', '503']);
  expect(document.components.schemas.TrendRequest).toMatchObject({
    required: ['x', 'y'],
    properties: { x: { minItems: 3, maxItems: 100_000 }, confidence: { default: 0.95, exclusiveMaximum: 1 } },
    additionalProperties: false,
  });
});

describe('long series', () => {
  it('have the same answer as where they would be short: 1,000 points here, 1,001 in the thread', async () => {
    const { x, y } = makeSeries(1001);
    const short = await askFor({ x: x.slice(0, 1000), y: y.slice(0, 1000) });
    const padded = JSON.stringify({ x: x.slice(0, 1000), y: y.slice(0, 1000) }) + ' '.repeat(60_000);
    expect(await askFor(padded)).toEqual(short);
    expect((await askFor({ x, y })).n).toBe(1001);
  });

  it('are refused from the thread as the short ones are', async () => {
    const x = index(20_000);
    const refusal = await expectRefused({ x, y: x.map((i) => (i === 17_000 ? null : i)) });
    expect(refusal).toMatchObject({ code: 'invalid_request', errors: [{ field: 'y.17000' }] });
  });

  // The tolerances allow for a machine that does other work: without it some 2 s, and pauses of some 30 ms.
  it('of 100,000 points are answered in seconds, and nobody waits meanwhile', async () => {
    const { x, y } = makeSeries(100_000);
    const body = JSON.stringify({ x, y });
    const started = performance.now();
    let done = false;
    const asked = askFor(body).finally(() => {
      done = true;
    });
    const waits: number[] = [];
    while (!done) {
      const at = performance.now();
      expect((await app.get('/health/live')).status).toBe(200);
      waits.push(performance.now() - at);
      await new Promise((settle) => setTimeout(settle, 5));
    }
    const reply = await asked;
    expect(performance.now() - started).toBeLessThan(20_000);
    expect(waits.length).toBeGreaterThan(20);
    expect(Math.max(...waits)).toBeLessThan(1000);
    expect(reply.declined).toEqual({});
    // The rise begins at 70 % of the way: its standard error is well below 1 % of it.
    expect(Math.abs((reply.hinge?.break ?? 0) / (0.7 * 350_000) - 1)).toBeLessThan(0.05);
  });

  it('beyond eight at once are refused, to be sent again, and the rest is answered', async () => {
    const body = JSON.stringify(makeSeries(30_000));
    const answers = await Promise.all(index(12).map(() => post(body)));
    const statuses = answers.map((one) => one.status).sort();
    expect(statuses).toEqual([...index(8).map(() => 200), ...index(4).map(() => 503)]);
    const busy = answers.find((one) => one.status === 503);
    expect(busy?.headers.get('retry-after')).toBe('5');
    expect(await busy?.json()).toMatchObject({
      code: 'busy',
      detail: expect.stringContaining('Send it again'),
    });
    expect((await post(body)).status).toBe(200);
  });

  it('that nobody waits for any more make room', async () => {
    const body = JSON.stringify(makeSeries(30_000));
    const leave = new AbortController();
    const left = index(8).map(() =>
      fetch(`${app.url}/api/analysis/trend`, {
        method: 'POST',
        headers: { authorization: `Bearer ${TEST_KEY}`, 'content-type': 'application/json' },
        body,
        signal: leave.signal,
      }).catch(() => null),
    );
    setTimeout(() => leave.abort(), 200);
    expect(await Promise.all(left)).toContain(null);
    await expect.poll(async () => (await post(body)).status, { timeout: 30_000 }).toBe(200);
  });
});
