import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type AccessRule, type AccessRuleName, accessRules } from '#server/contract/access-rules.ts';
import { roles } from '#server/contract/words.ts';
import { programActor } from '#server/services/actor.ts';
import { addKey } from '#server/services/keys/set-up-keys.ts';
import { makeReading } from '#tests/helpers/make-reading.ts';
import { signInAs } from '#tests/helpers/sign-in.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';
import { TEST_KEY } from '#tests/helpers/test-key.ts';

/**
 * Walks the OpenAPI document and tries every call as everybody. What is expected comes from the rule that the call
 * names; the table below says once more, by hand, whom each call is for, so that a rule cannot loosen unseen.
 */
const intended: Record<AccessRuleName, string> = {
  anyone: 'nobody planner shop analyst admin deliver read write readingLink reportingLink',
  self: 'planner shop analyst admin',
  officeSelf: 'planner analyst admin',
  deliver: 'planner admin deliver write',
  readVehicles: 'planner shop analyst admin read write',
  readPacket: 'planner shop analyst admin read write readingLink reportingLink',
  report: 'planner shop admin write reportingLink',
  share: 'planner shop admin write',
  ownLink: 'readingLink reportingLink',
  readFleet: 'planner analyst admin read write',
  readNames: 'planner shop analyst admin read write',
  analyse: 'planner analyst admin write',
  readIntake: 'planner admin read write',
  plan: 'planner admin write',
  setUp: 'admin write',
  administer: 'admin',
};

/** Calls by the rule that they are meant to have. A new call has to be added here, by whoever thinks about it. */
const meant: Record<AccessRuleName, string[]> = {
  anyone: [
    'GET /health/live',
    'GET /health/ready',
    'GET /metrics',
    'GET /api/session',
    'POST /api/session',
    'DELETE /api/session',
    'POST /api/session/company',
    'GET /api/session/callback/company',
    'POST /api/one-time',
    'POST /api/one-time/password',
    'GET /api/feeds/{file}',
  ],
  self: ['GET /api/sessions', 'DELETE /api/sessions/{id}', 'DELETE /api/sessions', 'POST /api/password'],
  officeSelf: [
    'GET /api/digest/mail',
    'PUT /api/digest/mail',
    'GET /api/saved-filters',
    'POST /api/saved-filters',
    'DELETE /api/saved-filters/{id}',
    'GET /api/workbench/sets',
    'POST /api/workbench/sets',
    'GET /api/workbench/sets/{id}',
    'DELETE /api/workbench/sets/{id}',
  ],
  deliver: ['POST /api/readings'],
  readVehicles: [
    'GET /api/ranking',
    'GET /api/ranking.csv',
    'GET /api/ranking/outlook',
    'GET /api/vehicles/{id}',
    'GET /api/vehicles/{id}/series',
    'GET /api/vehicles/{id}/history',
    'GET /api/vehicles/{id}/history.csv',
  ],
  readPacket: [
    'GET /api/packets',
    'GET /api/packets/{id}',
    'GET /api/packets/{id}/series',
    'GET /api/packets/{id}/packet.pdf',
    'GET /api/packets/{id}/findings/{finding}/trace',
    'GET /api/packets/{id}/files/{file}',
  ],
  report: [
    'POST /api/packets',
    'POST /api/packets/{id}/findings',
    'POST /api/packets/{id}/road-test',
    'POST /api/packets/{id}/photos',
    'PUT /api/packets/{id}/report',
    'POST /api/packets/{id}/close',
    'PUT /api/packets/{id}/core',
  ],
  share: [
    'GET /api/packets/{id}/links',
    'POST /api/packets/{id}/links',
    'DELETE /api/packets/{id}/links/{link}',
  ],
  ownLink: ['GET /api/packet-by-link'],
  readFleet: [
    'GET /api/set-up/depots',
    'GET /api/set-up/platforms',
    'GET /api/set-up/vehicles',
    'GET /api/set-up/lives',
    'GET /api/set-up/failures',
    'GET /api/settings/thresholds',
    'GET /api/digest',
    'GET /api/ranking/units',
    'GET /api/ranking/uncovered-holds',
    'GET /api/ranking/explain',
    'POST /api/analysis/trend',
    'POST /api/analysis/lives',
    'GET /api/analysis/replays',
    'GET /api/analysis/replays/{id}',
    'GET /api/analysis/replays/{id}/came.csv',
    'GET /api/analysis/replays/{id}/needless.csv',
    'GET /api/analysis/lives',
    'GET /api/analysis/lives.csv',
    'GET /api/analysis/life-fits',
    'GET /api/export/{file}',
    'GET /api/movement',
    'GET /api/platforms/{id}/movement',
    'GET /api/platforms/{id}/atlas',
    'GET /api/bookings',
    'GET /api/bookings.csv',
    'GET /api/bookings/{id}',
    'GET /api/bay-plan',
  ],
  analyse: ['POST /api/analysis/replay', 'DELETE /api/analysis/replays/{id}'],
  readNames: [
    'GET /api/platforms',
    'GET /api/depots',
    'GET /api/codes',
    'GET /api/set-up/depots/template',
    'GET /api/set-up/platforms/template',
    'GET /api/set-up/vehicles/template',
    'GET /api/set-up/lives/template',
    'GET /api/set-up/failures/template',
  ],
  readIntake: [
    'GET /api/mappings',
    'GET /api/receipts/{id}',
    'GET /api/receipts',
    'GET /api/intake/throughput',
    'GET /api/intake/vehicles',
    'GET /api/refused',
    'GET /api/refused/lines',
    'GET /api/gateways',
    'GET /api/gateways/set-aside',
    'GET /api/odometer-questions',
  ],
  plan: [
    'POST /api/readings/look',
    'POST /api/refused/state',
    'POST /api/refused/rule',
    'POST /api/refused/{id}',
    'PUT /api/odometer-answers',
    'PUT /api/mappings/{name}',
    'DELETE /api/mappings/{name}',
    'POST /api/vehicles',
    'POST /api/set-up/vehicles',
    'POST /api/set-up/lives',
    'POST /api/set-up/failures',
    'POST /api/lives',
    'POST /api/assess',
    'POST /api/plan',
    'PUT /api/vehicles/{id}/shop',
    'DELETE /api/vehicles/{id}/shop',
    'POST /api/bookings',
    'PATCH /api/bookings/{id}',
    'POST /api/bookings/{id}/put-off',
    'POST /api/bookings/{id}/cancel',
    'POST /api/bookings/{id}/done',
    'GET /api/depots/{id}/feed',
    'POST /api/depots/{id}/feed',
    'DELETE /api/depots/{id}/feed',
  ],
  setUp: [
    'POST /api/platforms',
    'POST /api/depots',
    'POST /api/set-up/depots',
    'POST /api/set-up/platforms',
    'POST /api/codes',
    'DELETE /api/codes/{code}',
    'PUT /api/settings/thresholds',
    'POST /api/settings/preview',
    'POST /api/settings/depot-preview',
  ],
  administer: [
    'GET /api/people',
    'POST /api/people',
    'PATCH /api/people/{id}',
    'POST /api/people/{id}/address',
    'DELETE /api/people/{id}/sessions',
    'GET /api/webhooks',
    'POST /api/webhooks',
    'PATCH /api/webhooks/{id}',
    'DELETE /api/webhooks/{id}',
    'POST /api/webhooks/{id}/trial',
    'GET /api/webhooks/{id}/posts',
    'POST /api/webhooks/{id}/posts/{post}/again',
    'GET /api/keys',
    'POST /api/keys',
    'DELETE /api/keys/{id}',
    'GET /api/changes',
    'GET /api/changes.csv',
    'GET /api/storage',
  ],
};

interface Call {
  method: string;
  path: string;
  rule: AccessRuleName;
}

let app: TestApp;
let calls: Call[];
/** headers of everybody who asks */
const asking = new Map<string, Record<string, string>>();

beforeAll(async () => {
  app = await startApp();
  await app.post('/api/depots', [
    { id: 'north', name: 'North' },
    { id: 'south', name: 'South' },
  ]);
  await app.post('/api/readings', [
    makeReading({ vehicle: 'N-1' }),
    makeReading({ vehicle: 'S-1' }),
    makeReading({ vehicle: 'X-1' }),
  ]);
  await app.post('/api/vehicles', [
    { id: 'N-1', depot: 'north' },
    { id: 'S-1', depot: 'south' },
  ]);
  await app.post('/api/assess', {});
  asking.set('nobody', {});
  for (const role of roles) asking.set(role, (await signInAs(app, role)).headers);
  const ctx = { ...app.running.context, actor: programActor('test') };
  for (const right of ['deliver', 'read', 'write'] as const) {
    const made = await addKey(ctx, {
      name: `${right} key`,
      right,
      expires_at: null,
      requests_per_minute: 100_000,
      max_body_mib: null,
    });
    asking.set(right, { authorization: `Bearer ${made.secret}` });
  }
  const opened = await (await app.post('/api/packets', { vehicle: 'X-1' })).json();
  for (const [who, mayReport] of [
    ['readingLink', false],
    ['reportingLink', true],
  ] as const) {
    const made = await app.post(`/api/packets/${opened.id}/links`, { label: who, may_report: mayReport });
    const { address } = await made.json();
    asking.set(who, { authorization: `Bearer ${address.split('#')[1]}` });
  }
  // Closed again, so that shops do not see its vehicle.
  const closing = { version: opened.version, outcome: 'no_fault_found', odometer_km: 1, as_measured: true };
  expect((await app.post(`/api/packets/${opened.id}/close`, closing)).status).toBe(200);
  const { paths } = await (await app.get('/api/openapi.json')).json();
  calls = Object.entries<Record<string, { 'x-access': AccessRuleName }>>(paths).flatMap(([path, item]) =>
    Object.entries(item).map(([method, operation]) => ({
      method: method.toUpperCase(),
      path,
      rule: operation['x-access'],
    })),
  );
});
afterAll(() => app?.stop());

/** The body says nothing that could be done: who may call it is told what is wrong with it, and nothing changes. */
const tryCall = ({ method, path }: Pick<Call, 'method' | 'path'>, headers: Record<string, string>) =>
  fetch(app.url + path.replace(/\{\w+\}/g, 'none-such'), {
    method,
    redirect: 'manual',
    headers: { 'content-type': 'application/json', ...headers },
    ...(method === 'GET' || method === 'DELETE' ? {} : { body: '"nothing that could be done"' }),
  });

/** Links that a rule lets in. */
const linksOf = ({ links }: AccessRule): string[] =>
  links === 'read' ? ['readingLink', 'reportingLink'] : links === 'report' ? ['reportingLink'] : [];

const wayOut = (call: Call) => call.method === 'DELETE' && /^\/api\/sessions?$/.test(call.path);

describe('every call of the document', () => {
  it('names the rule that it is meant to have', () => {
    for (const { method, path, rule } of calls)
      expect([rule, meant[rule]?.includes(`${method} ${path}`)], `${method} ${path}`).toEqual([rule, true]);
    expect(calls.length).toBe(Object.values(meant).flat().length);
  });

  it('has rules that let in whom they are meant to let in', () => {
    for (const [name, rule] of Object.entries<AccessRule>(accessRules)) {
      const allowed =
        rule.anyone === true ? [...asking.keys()] : [...rule.people, ...rule.keys, ...linksOf(rule)];
      expect([...allowed].sort(), name).toEqual(intended[name as AccessRuleName].split(' ').sort());
    }
  });

  it('answers those whom its rule names, and declines all others before it reads what they sent', async () => {
    let tried = 0;
    for (const call of calls.filter((one) => !wayOut(one))) {
      for (const [who, headers] of asking) {
        const answer = await tryCall(call, headers);
        const label = `${who}: ${call.method} ${call.path} answered ${answer.status}`;
        const isAllowed = intended[call.rule].split(' ').includes(who);
        if (isAllowed) expect([401, 403, 500], label).not.toContain(answer.status);
        else expect(answer.status, label).toBe(who === 'nobody' ? 401 : 403);
        if (!isAllowed) expect(answer.headers.get('content-type'), label).toBe('application/problem+json');
        await answer.body?.cancel();
        tried += 1;
      }
    }
    expect(tried).toBe((calls.length - 2) * asking.size);
  });

  it('declines a key that has run out, was revoked, is made up or cut short, wherever a key is asked for', async () => {
    const { secret } = await addKey(
      { ...app.running.context, actor: programActor('test') },
      {
        name: 'ends',
        right: 'write',
        expires_at: null,
        requests_per_minute: 100_000,
        max_body_mib: null,
      },
    );
    const id = secret.split('_')[1] ?? '';
    const [kept] = await app.client`select digest from access_keys where id = ${id}`;
    expect(kept?.digest).toHaveLength(32);
    const bad: [string, string, () => Promise<unknown>][] = [
      [
        'expired',
        secret,
        () => app.client`update access_keys set expires_at = now() - interval '1 hour' where id = ${id}`,
      ],
      [
        'revoked',
        secret,
        () => app.client`update access_keys set expires_at = null, revoked_at = now() where id = ${id}`,
      ],
      ['made up', `slipdrift_${id}_${'A'.repeat(43)}`, async () => {}],
      ['cut short', secret.slice(0, -1), async () => {}],
      ['the set-up key with something behind it', `${TEST_KEY}x`, async () => {}],
    ];
    for (const [what, key, prepare] of bad) {
      await prepare();
      for (const call of calls.filter(({ path }) => path.startsWith('/api'))) {
        const answer = await tryCall(call, { authorization: `Bearer ${key}` });
        expect(answer.status, `${what}: ${call.method} ${call.path}`).toBe(401);
        await answer.body?.cancel();
      }
    }
  });

  it('answers the set-up key wherever a key or an admin may call', async () => {
    for (const call of calls.filter(
      (call) => !['self', 'officeSelf', 'ownLink'].includes(call.rule) && !wayOut(call),
    )) {
      const answer = await tryCall(call, { authorization: `Bearer ${TEST_KEY}` });
      expect([401, 403, 500], `${call.method} ${call.path}`).not.toContain(answer.status);
      await answer.body?.cancel();
    }
  });
});

describe('HEAD', () => {
  it('is answered to whom GET is', async () => {
    const ask = async (headers: Record<string, string>) =>
      (await fetch(`${app.url}/api/people`, { method: 'HEAD', headers })).status;
    expect(await ask(asking.get('admin') ?? {})).toBe(200);
    expect(await ask(asking.get('planner') ?? {})).toBe(403);
    expect(await ask({})).toBe(401);
  });
});

describe('a call without a rule', () => {
  it('is not there: every handler under /api is described, but for the description itself', async () => {
    const { createApp } = await import('#server/app.ts');
    const { createMetrics } = await import('#server/metrics.ts');
    const { createPreviewDesk } = await import('#server/services/settings/preview-desk.ts');
    const { context, people } = app.running;
    const built = createApp({
      context,
      people,
      assessment: {
        nudge() {},
        hold: () => () => {},
        idle: async () => {},
        assessNow: async () => 0,
        stop: async () => {},
      },
      metrics: createMetrics(),
      maxBodyBytes: 1,
      bodyIdleMs: 1,
      apiKey: TEST_KEY,
      proxies: 0,
      previews: createPreviewDesk(async () => null),
      replays: { nudge() {} },
      printer: { print: async () => new Uint8Array() },
      screensFolder: '',
    });
    const described = new Set(
      calls.map(({ method, path }) => `${method} ${path.replace(/\{(\w+)\}/g, ':$1')}`),
    );
    const handlers = built.routes.filter(({ method, path }) => method !== 'ALL' && path.startsWith('/api'));
    const undescribed = new Set(
      handlers.map(({ method, path }) => `${method} ${path}`).filter((one) => !described.has(one)),
    );
    expect([...undescribed].sort()).toEqual(['GET /api', 'GET /api/openapi.json']);
    // One that somebody adds without a rule answers nobody, not even the set-up key.
    built.get('/api/forgotten', (c) => c.text('open'));
    const answer = await built.request('http://localhost/api/forgotten', {
      headers: { authorization: `Bearer ${TEST_KEY}` },
    });
    expect(answer.status).toBe(403);
  });
});

describe('a person of one depot', () => {
  const get = (path: string, headers: Record<string, string>) => fetch(app.url + path, { headers });
  const vehiclesOf = async (headers: Record<string, string>) => {
    const { rows, total } = await (await get('/api/ranking', headers)).json();
    expect(total).toBe(rows.length);
    return rows.map((row: { vehicle: string }) => row.vehicle).sort();
  };

  it.each(['planner', 'analyst', 'admin'] as const)(
    'as %s sees vehicles of that depot and no other',
    async (role) => {
      const { headers } = await signInAs(app, role, { depots: ['north'] });
      expect(await vehiclesOf(headers)).toEqual(['N-1']);
      const csv = await (await get('/api/ranking.csv', headers)).text();
      expect(csv).toContain('N-1');
      expect(csv).not.toContain('S-1');
      expect(csv).not.toContain('X-1');
      const { counts } = await (await get('/api/ranking/outlook', headers)).json();
      expect(Object.values<number>(counts).reduce((sum, n) => sum + n, 0)).toBe(1);
      for (const part of ['', '/series', '/history']) {
        expect((await get(`/api/vehicles/N-1${part}`, headers)).status).toBe(200);
        for (const other of ['S-1', 'X-1'])
          expect((await get(`/api/vehicles/${other}${part}`, headers)).status, other + part).toBe(404);
      }
      expect(await vehiclesOf(headers)).toEqual(['N-1']);
      const byOther = await (await get('/api/ranking?depot=south', headers)).json();
      expect(byOther.total).toBe(0);
      const horizon = await (await get('/api/ranking?horizon_km=2000&sort=chance', headers)).json();
      expect(horizon.rows.map((row: { vehicle: string }) => row.vehicle)).toEqual(['N-1']);
    },
  );

  it('may change vehicles and lives of that depot and no other, and neither take any away nor in', async () => {
    const { headers } = await signInAs(app, 'planner', { depots: ['north'] });
    const post = async (path: string, body: unknown) =>
      (await fetch(app.url + path, { method: 'POST', headers, body: JSON.stringify(body) })).status;
    expect(await post('/api/vehicles', { id: 'N-1', vin: '11111111111111111' })).toBe(200);
    expect(await post('/api/vehicles', { id: 'S-1', vin: '11111111111111111' })).toBe(403);
    expect(await post('/api/vehicles', { id: 'N-1', depot: 'south' })).toBe(403);
    expect(await post('/api/vehicles', { id: 'N-1', depot: null })).toBe(403);
    expect(await post('/api/vehicles', { id: 'NEW-1', depot: 'south' })).toBe(403);
    expect(await post('/api/vehicles', { id: 'NEW-1' })).toBe(403);
    expect(await post('/api/vehicles', { id: 'NEW-1', depot: 'north' })).toBe(200);
    expect(await post('/api/lives', { vehicle: 'N-1', fitted_km: 10, source: 'new' })).toBe(200);
    expect(await post('/api/lives', { vehicle: 'S-1', fitted_km: 10, source: 'new' })).toBe(403);
    expect(await post('/api/lives', { vehicle: 'NEW-2', fitted_km: 10, source: 'new' })).toBe(403);
    expect(await post('/api/readings', [makeReading({ vehicle: 'N-1' })])).toBe(403);
    const [row] =
      await app.client`select count(*) as n from vehicles where unit = 'NEW-2' or vin is not null and unit = 'S-1'`;
    expect(row?.n).toBe(0);
  });

  it('sees no receipt: its refused lines may be of any vehicle', async () => {
    const [receipt] = await app.client`select id from receipts limit 1`;
    const path = `/api/receipts/${receipt?.id}`;
    expect((await get(path, (await signInAs(app, 'planner', { depots: ['north'] })).headers)).status).toBe(
      403,
    );
    expect((await get(path, (await signInAs(app, 'planner')).headers)).status).toBe(200);
  });
});

describe('a shop', () => {
  it('sees the vehicles that were sent to it, until they are called back', async () => {
    const planner = await signInAs(app, 'planner');
    const north = await signInAs(app, 'shop', { depots: ['north'] });
    const south = await signInAs(app, 'shop', { depots: ['south'] });
    const any = await signInAs(app, 'shop');
    const sees = async ({ headers }: { headers: Record<string, string> }) => {
      const { rows } = await (await fetch(`${app.url}/api/ranking`, { headers })).json();
      const one = await fetch(`${app.url}/api/vehicles/S-1/series`, { headers });
      expect(one.status).toBe(rows.length === 1 ? 200 : 404);
      return rows.map((row: { vehicle: string }) => row.vehicle);
    };
    const send = (depot: string) =>
      fetch(`${app.url}/api/vehicles/S-1/shop`, {
        method: 'PUT',
        headers: planner.headers,
        body: JSON.stringify({ depot, note: 'shudders' }),
      });
    expect([await sees(north), await sees(south), await sees(any)]).toEqual([[], [], []]);
    // The vehicle is of the south and goes to the shop in the north: who has it sees it.
    expect((await send('north')).status).toBe(200);
    expect([await sees(north), await sees(south), await sees(any)]).toEqual([['S-1'], [], ['S-1']]);
    const { shop } = await (await fetch(`${app.url}/api/vehicles/S-1`, { headers: north.headers })).json();
    expect(shop).toMatchObject({
      depot: 'north',
      depot_name: 'North',
      note: 'shudders',
      sent_by: planner.name,
    });
    expect((await send('south')).status).toBe(200);
    expect([await sees(north), await sees(south)]).toEqual([[], ['S-1']]);
    expect((await send('nowhere')).status).toBe(400);
    const back = await fetch(`${app.url}/api/vehicles/S-1/shop`, {
      method: 'DELETE',
      headers: planner.headers,
    });
    expect(back.status).toBe(204);
    expect([await sees(north), await sees(south), await sees(any)]).toEqual([[], [], []]);
    const rows = await app.client`
      select action from changes where subject = 'vehicle' and subject_id = 'S-1' and action in ('sent_to_shop', 'called_back')
      order by id`;
    expect(rows.map((row) => row.action)).toEqual(['sent_to_shop', 'sent_to_shop', 'called_back']);
  });
});
