import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type LivesReply, livesReply } from '#server/contract/lives.ts';
import { type Problem, problem } from '#server/contract/problems.ts';
import { livesExample } from '#server/routes/lives-example.ts';
import { makeLives } from '#tests/helpers/make-lives.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';

let app: TestApp;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app?.stop());

const post = (body: unknown) => app.post('/api/analysis/lives', body);

async function askFor(lives: unknown, more: object = {}): Promise<LivesReply> {
  const answer = await post({ lives, ...more });
  expect(answer.status).toBe(200);
  return livesReply.parse(await answer.json());
}

async function expectRefused(body: unknown, status = 400): Promise<Problem> {
  const answer = await post(body);
  expect(answer.status).toBe(status);
  expect(answer.headers.get('content-type')).toBe('application/problem+json');
  return problem.parse(await answer.json());
}

const failed = (exit: number, more: object = {}) => ({ exit, event: true, ...more });
const ran = (exit: number, more: object = {}) => ({ exit, event: false, ...more });

describe('lives', () => {
  it('are answered as the example of the description says', async () => {
    const { lives } = livesExample.request;
    const flat = (value: unknown, key = ''): [string, unknown][] =>
      typeof value === 'object' && value !== null
        ? Object.entries(value).flatMap(([name, part]) => flat(part, `${key}.${name}`))
        : [[key, value]];
    const found = new Map(flat(await askFor(lives)));
    const wanted = flat(livesExample.reply);
    expect([...found.keys()].sort()).toEqual(wanted.map(([key]) => key).sort());
    for (const [key, one] of wanted) {
      if (typeof one !== 'number') expect(found.get(key), key).toBe(one);
      else expect(Math.abs(Number(found.get(key)) - one), key).toBeLessThanOrEqual(1e-9 * Math.abs(one));
    }
  });

  it('with a count are as many alike, whatever is asked of them', async () => {
    const { lives } = livesExample.request;
    const rows = lives.flatMap(({ count = 1, ...life }) => Array.from({ length: count }, () => life));
    const [counted, spelt] = [await askFor(lives), await askFor(rows)];
    expect(spelt).toMatchObject({ n: counted.n, events: counted.events });
    expect(spelt.cox?.terms[0]?.coef).toBeCloseTo(counted.cox?.terms[0]?.coef ?? 0, 10);
    expect(spelt.logrank?.chisq).toBeCloseTo(counted.logrank?.chisq ?? 0, 10);
    expect(spelt.groups.map(({ weibull }) => weibull?.shape.toFixed(9))).toEqual(
      counted.groups.map(({ weibull }) => weibull?.shape.toFixed(9)),
    );
  });

  it('are grouped in the order in which groups are named, and what names none is a group of its own', async () => {
    const { groups } = await askFor([failed(5, { group: 'b' }), ran(9), failed(6, { group: 'a' })]);
    expect(groups.map(({ name, n, events }) => [name, n, events])).toEqual([
      ['b', 1, 1],
      ['no group named', 1, 0],
      ['a', 1, 1],
    ]);
    const alone = await askFor([failed(5), ran(9, { group: null, entry: null, count: null })]);
    expect(alone.groups.map(({ name, exposed }) => [name, exposed])).toEqual([['all', 14]]);
  });

  it('have bounds as wide as the confidence asked for', async () => {
    const lives = [failed(5), failed(7, { entry: 2 }), failed(8), ran(9)];
    const [narrow, wide] = [
      await askFor(lives, { confidence: 0.5 }),
      await askFor(lives, { confidence: 0.99 }),
    ];
    expect(narrow.groups[0]?.weibull?.shape).toBe(wide.groups[0]?.weibull?.shape);
    expect(narrow.groups[0]?.weibull?.b10.low ?? 0).toBeGreaterThan(wide.groups[0]?.weibull?.b10.low ?? 0);
    expect(narrow.groups[0]?.kaplan_meier[0]?.low ?? 0).toBeGreaterThan(
      wide.groups[0]?.kaplan_meier[0]?.low ?? 0,
    );
  });

  it('of several modes are told apart, failures without a mode as one of their own', async () => {
    const lives = [
      failed(4, { mode: 'lining' }),
      failed(5, { mode: 'seal' }),
      failed(6),
      failed(7, { mode: 'lining' }),
    ];
    const { groups, notes } = await askFor([...lives, ran(9, { mode: 'lining' })]);
    expect(groups[0]?.cumulative_incidence.map(({ mode, events }) => [mode, events])).toEqual([
      ['lining', 2],
      ['not recorded', 1],
      ['seal', 1],
    ]);
    expect(groups[0]?.weibull_by_mode).toMatchObject([
      { mode: 'lining', events: 2, declined: null },
      { mode: 'not recorded', weibull: null, declined: { reason: 'too few failures', got: '1 failure' } },
      { mode: 'seal', weibull: null },
    ]);
    expect(notes).toEqual([
      '1 of the lives name a mode, though event is false: a life that ran on has none.',
    ]);
    const one = await askFor([failed(4, { mode: 'lining' }), failed(7, { mode: 'lining' })]);
    expect(one.groups[0]).toMatchObject({ weibull_by_mode: [], cumulative_incidence: [{ events: 2 }] });
  });
});

describe('a part that cannot be had', () => {
  it('is null and says why, what is needed and what there was', async () => {
    const reply = await askFor([failed(5), ran(9)]);
    const few = {
      reason: 'too few failures',
      needed: 'at least 2 failures at different mileages',
      got: '1 failure',
    };
    expect(reply.groups[0]).toMatchObject({ weibull: null, lognormal: null, cumulative_incidence: [] });
    expect(reply.groups[0]?.declined).toMatchObject({ weibull: few, lognormal: few });
    expect(reply).toMatchObject({ logrank: null, cox: null });
    expect(reply.declined).toMatchObject({
      logrank: { reason: 'one group' },
      cox: { reason: 'no covariates' },
    });
    expect(reply.groups[0]?.kaplan_meier).toHaveLength(1);
  });

  it('leaves lives that all ran on with what can be said of them', async () => {
    const { groups, events } = await askFor([ran(5, { entry: 2 }), ran(9)]);
    expect(events).toBe(0);
    expect(groups[0]).toMatchObject({ kaplan_meier: [], median: null, exposed: 12, late_entries: 1 });
    expect(groups[0]?.at_risk).toEqual([
      { x: 0, n: 1 },
      { x: 2, n: 2 },
      { x: 5, n: 1 },
      { x: 9, n: 0 },
    ]);
  });

  it('is a regression on exposures of lives that lack one; those that have all are used, and it is said', async () => {
    const lives = [1, 2, 3, 4, 5, 6].map((exit, i) =>
      failed(exit, { covariates: { load: i % 3, heat: i % 2 } }),
    );
    const { cox, notes } = await askFor([
      ...lives,
      failed(7, { covariates: { load: 2, heat: null } }),
      ran(9),
    ]);
    expect(cox).toMatchObject({ n: 6, events: 6 });
    expect(notes).toEqual([
      '2 of the lives lack an exposure and are left out of the Cox regression: "heat" is missing in 2, "load" is missing in 1.',
    ]);
    const none = await askFor([
      failed(1, { covariates: { load: 1 } }),
      failed(2, { covariates: { heat: 1 } }),
    ]);
    expect(none.declined.cox).toMatchObject({ reason: 'no life has all covariates' });
  });

  it('is survival after an early failure of the only one at risk, and the answer says so', async () => {
    const { groups } = await askFor([failed(10), ...[60, 70, 80].map((exit) => failed(exit, { entry: 40 }))]);
    expect(groups[0]?.kaplan_meier.map(({ survival }) => survival)).toEqual([0, 0, 0, 0]);
    expect(groups[0]?.notes[0]).toMatch(
      /^Survival falls to 0 at 10, where all 1 at risk failed, .* 3 entered later/,
    );
    expect((await askFor([failed(10), failed(60)])).groups[0]?.notes).toEqual([]);
  });
});

describe('lives are refused', () => {
  const badLife = (change: object) => ({ lives: [failed(5), { ...failed(7), ...change }] });
  it.each<[string, unknown, string, string]>([
    [
      'with a mileage of 0',
      badLife({ exit: 0 }),
      'lives.1.exit',
      'must be above 0 and at most 1000000000000, not 0',
    ],
    ['with a mileage below 0', badLife({ exit: -5 }), 'lives.1.exit', 'must be above 0'],
    ['with an entry below 0', badLife({ entry: -1 }), 'lives.1.entry', 'must be 0 or more'],
    [
      'with an entry after the exit',
      badLife({ entry: 8 }),
      'lives.1.entry',
      'is 8, but must be below exit, 7',
    ],
    ['with an entry at the exit', badLife({ entry: 7 }), 'lives.1.entry', 'nothing was seen of this life'],
    [
      'without an exit',
      { lives: [{ event: true }] },
      'lives.0.exit',
      'must be a finite number, not left out',
    ],
    ['with text for an exit', badLife({ exit: '7' }), 'lives.1.exit', 'not the text "7"'],
    ['beyond 1e12', badLife({ exit: 1e13 }), 'lives.1.exit', 'at most 1000000000000'],
    [
      'with 1e999',
      '{"lives":[{"exit":1e999,"event":true}]}',
      'lives.0.exit',
      'must be a finite number, not a number beyond',
    ],
    [
      'with words for an event',
      badLife({ event: 'failed' }),
      'lives.1.event',
      'must be true (it failed at exit) or false (it ran on), not the text "failed"',
    ],
    ['with an event of 2', badLife({ event: 2 }), 'lives.1.event', 'not 2'],
    ['without an event', { lives: [{ exit: 5 }] }, 'lives.0.event', 'not left out'],
    ['with a mode without a name', badLife({ mode: '' }), 'lives.1.mode', 'must not be empty'],
    ['with a group of blanks', badLife({ group: '  ' }), 'lives.1.group', 'must not be empty'],
    ['with half a life', badLife({ count: 0.5 }), 'lives.1.count', 'must be a whole number, not 0.5'],
    ['with a count of 0', badLife({ count: 0 }), 'lives.1.count', 'must be 1 or more, not 0'],
    ['with a count beyond a million', badLife({ count: 1e7 }), 'lives.1.count', 'must be at most 1000000'],
    [
      'with text for a covariate',
      badLife({ covariates: { load: 'high' } }),
      'lives.1.covariates.load',
      'must be a finite number, not the text "high"',
    ],
    [
      'with a covariate that the reader would drop',
      '{"lives":[{"exit":5,"event":true,"covariates":{"load":1,"__proto__":2}}]}',
      'lives.0.covariates.__proto__',
      'is a name that cannot be taken',
    ],
    ['with a list for covariates', badLife({ covariates: [1, 2] }), 'lives.1.covariates', ''],
    [
      'with a misspelt field',
      badLife({ covariate: { load: 1 } }),
      'lives.1.covariate',
      'is not a known field',
    ],
    [
      'that are none',
      { lives: [failed(5), 7] },
      'lives.1',
      'must be an object, such as {"exit": 120000, "event": true}, not 7',
    ],
    ['as an empty list', { lives: [] }, 'lives', 'is empty: nothing can be said without lives'],
    ['as no list', { lives: 'all' }, 'lives', 'must be a list of lives, not the text "all"'],
    ['as a bare list', [failed(5)], '', 'must be an object, such as {"lives": [{'],
    ['with an unknown field beside them', { lives: [failed(5)], unit: 'km' }, 'unit', 'is not a known field'],
    ['with 95 for 0.95', { lives: [failed(5)], confidence: 95 }, 'confidence', 'above 0 and below 1, not 95'],
    [
      'in 51 groups',
      { lives: Array.from({ length: 51 }, (_, i) => failed(5, { group: `g${i}` })) },
      'lives',
      'name 51 different groups; at most 50',
    ],
    [
      'in 51 modes',
      { lives: Array.from({ length: 51 }, (_, i) => failed(5, { mode: `m${i}` })) },
      'lives',
      'name 51 different modes; at most 50',
    ],
    [
      'with 11 covariates',
      { lives: Array.from({ length: 11 }, (_, i) => failed(5, { covariates: { [`c${i}`]: 1 } })) },
      'lives',
      'name 11 different covariates; at most 10',
    ],
  ])('%s', async (_, body, field, message) => {
    const refusal = await expectRefused(body);
    expect(refusal.code).toBe('invalid_request');
    expect(refusal.errors).toContainEqual({ field, message: expect.stringContaining(message) });
    expect(refusal.detail).toContain('Nothing was computed');
  });

  it('naming the first faults and counting the rest, from the thread too', async () => {
    const lives = Array.from({ length: 3000 }, (_, i) => (i < 1000 ? failed(5) : failed(0)));
    const refusal = await expectRefused({ lives });
    expect(refusal.errors).toHaveLength(20);
    expect(refusal.detail).toContain('lives.1000.exit must be above 0');
    expect(refusal.detail).toContain('(and 1999 more)');
  });

  it('of more than 100,000', async () => {
    const refusal = await expectRefused({ lives: Array.from({ length: 100_001 }, () => failed(5)) });
    expect(refusal.errors[0]?.message).toBe('has 100001 lives; at most 100000 can be taken at once');
  });

  // Ten million rows would be some 300 MB: they are refused on the way, at 32 MiB.
  it('in a body over 32 MiB, and taken below', async () => {
    const row = `{"exit":1,"event":true},`;
    let sent = 0;
    const rows = new ReadableStream<Uint8Array>({
      pull(controller) {
        if (sent++ === 0) controller.enqueue(new TextEncoder().encode('{"lives":['));
        else if (sent < 40) controller.enqueue(new TextEncoder().encode(row.repeat(44_000)));
        else controller.close();
      },
    });
    const refusal = await expectRefused(rows, 413);
    expect(refusal).toMatchObject({
      code: 'body_too_large',
      detail:
        'The body is over 32 MiB. Nothing was computed; send at most 100,000 lives, with no more digits than were measured.',
    });
    const padded = `{"lives":[{"exit":5,"event":true}]}${' '.repeat(20 * 1024 * 1024)}`;
    expect((await post(padded)).status).toBe(200);
  });

  // Read as they are, these would take more memory than a thread may have, and end the program.
  it.each([
    ['lists', `{"lives":[${'[[]],'.repeat(1_000_000)}[]]}`, '2000003 objects and lists'],
    ['fields', `{"lives":[{${'"a":1,'.repeat(3_000_000)}"b":1}]}`, '3000000 values'],
  ])('that unfold into millions of %s', async (_, body, has) => {
    const refusal = await expectRefused(body, 413);
    expect(refusal.detail).toContain(`The body has ${has}`);
  });

  it.each([
    [
      '{"lives":[{"exit":NaN,"event":true}]}',
      'body_broken',
      'NaN and Infinity are no JSON: leave out a field',
    ],
    ['{"lives":[', 'body_broken', 'The body is not JSON'],
    ['', 'body_empty', 'The body is empty. Send {"lives": '],
  ])('as the body %j', async (body, code, detail) => {
    expect(await expectRefused(body)).toMatchObject({ code, detail: expect.stringContaining(detail) });
  });

  it('as CSV', async () => {
    const answer = await app.post('/api/analysis/lives', 'exit,event\n5,1', { 'content-type': 'text/csv' });
    expect(answer.status).toBe(415);
  });
});

it('is described with its schema and an example', async () => {
  const document = await (await app.get('/api/openapi.json')).json();
  const { requestBody, responses } = document.paths['/api/analysis/lives'].post;
  expect(requestBody.content['application/json']).toEqual({
    schema: { $ref: '#/components/schemas/LivesRequest' },
    example: livesExample.request,
  });
  expect(responses['200'].content['application/json'].example.n).toBe(13);
  expect(Object.keys(responses)).toEqual(['200', '400', '401', '403', '413', '415', '429', '503']);
  const { lives } = document.components.schemas.LivesRequest.properties;
  expect(lives).toMatchObject({ minItems: 1, maxItems: 100_000, items: { required: ['exit', 'event'] } });
});

describe('many lives', () => {
  it('have the same answer as where they would be few: at once here, padded in the thread', async () => {
    const lives = makeLives(300);
    const padded = JSON.stringify({ lives }) + ' '.repeat(60_000);
    const atOnce = await askFor(lives);
    for (const [accepted, packed] of [
      ['gzip', 'gzip'],
      ['identity', null],
      ['gzip;q=0', null],
    ] as const) {
      const answer = await app.post('/api/analysis/lives', padded, { 'accept-encoding': accepted });
      expect(answer.headers.get('content-encoding')).toBe(packed);
      expect(answer.headers.get('vary')).toContain('Accept-Encoding');
      expect(livesReply.parse(await answer.json())).toEqual(atOnce);
    }
  });

  // The tolerance allows for a machine that does other work: see docs/measurements.md for how long it takes.
  it('of 100,000 with groups, modes and exposures are answered in seconds, and recover how they were made', async () => {
    const lives = makeLives(100_000);
    const started = performance.now();
    const answer = await post({ lives });
    const reply = (await answer.json()) as LivesReply;
    expect(performance.now() - started).toBeLessThan(20_000);
    expect(reply.declined).toEqual({});
    expect(reply.groups.map(({ declined, weibull_by_mode }) => [declined, weibull_by_mode.length])).toEqual([
      [{}, 2],
      [{}, 2],
      [{}, 2],
    ]);
    const [fluid, load] = reply.cox?.terms ?? [];
    expect(Math.abs((fluid?.coef ?? 0) - 0.08)).toBeLessThan(5 * (fluid?.se ?? 0));
    expect(Math.abs(load?.coef ?? 1)).toBeLessThan(5 * (load?.se ?? 0));
    expect(fluid?.se).toBeLessThan(0.002);
  });
});
