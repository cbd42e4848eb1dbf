import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { offerFirstAccount } from '#server/services/people/one-time-address.ts';
import { signInAs, TEST_PASSWORD } from '#tests/helpers/sign-in.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';

let app: TestApp;
beforeEach(async () => {
  app = await startApp();
});
afterEach(() => app?.stop());

const send = (method: string, path: string, body?: unknown, headers: Record<string, string> = {}) =>
  fetch(app.url + path, {
    method,
    headers: { 'content-type': 'application/json', ...headers },
    ...(body === undefined ? {} : { body: JSON.stringify(body) }),
  });

describe('the address of the first admin', () => {
  const use = (token: string, email: string) =>
    send('POST', '/api/one-time/password', { token, password: TEST_PASSWORD, name: 'Somebody', email });

  it('works no more once anybody has an account', async () => {
    const { context, people } = app.running;
    const offered = await offerFirstAccount(context, people.library);
    const token = offered?.token ?? '';
    expect((await send('POST', '/api/one-time', { token })).status).toBe(200);
    await signInAs(app, 'admin');
    expect((await send('POST', '/api/one-time', { token })).status).toBe(404);
    expect((await use(token, 'late@tests.example')).status).toBe(404);
    expect(await app.client`select count(*) as n from people`).toEqual([{ n: 1 }]);
  });

  it('makes one admin, however many use it at once', async () => {
    const { context, people } = app.running;
    const offered = await offerFirstAccount(context, people.library);
    const answers = await Promise.all(
      Array.from({ length: 4 }, (_, i) => use(offered?.token ?? '', `one-${i}@tests.example`)),
    );
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 404, 404, 404]);
    expect(await app.client`select count(*) as n from people`).toEqual([{ n: 1 }]);
  });
});

describe('one-time addresses of a person', () => {
  it('made at once leave one that works, and it works once', async () => {
    const admin = await signInAs(app, 'admin');
    await signInAs(app, 'planner');
    const [row] = await app.client`select id from people where role = 'planner'`;
    const make = () => send('POST', `/api/people/${row?.id}/address`, undefined, admin.headers);
    const made = await Promise.all(Array.from({ length: 6 }, make));
    const tokens = await Promise.all(
      made.map(async (one) => new URL((await one.json()).address).hash.slice(1)),
    );
    const looks = await Promise.all(tokens.map((token) => send('POST', '/api/one-time', { token })));
    expect(looks.filter(({ status }) => status === 200)).toHaveLength(1);
    const living = tokens[looks.findIndex(({ status }) => status === 200)];
    const uses = await Promise.all(
      Array.from({ length: 3 }, () =>
        send('POST', '/api/one-time/password', { token: living, password: `${TEST_PASSWORD} two` }),
      ),
    );
    expect(uses.map(({ status }) => status).sort()).toEqual([200, 404, 404]);
  });

  it('still work where the password could not be stored', async () => {
    const admin = await signInAs(app, 'admin');
    await signInAs(app, 'planner');
    const [row] = await app.client`select id from people where role = 'planner'`;
    const made = await send('POST', `/api/people/${row?.id}/address`, undefined, admin.headers);
    const token = new URL((await made.json()).address).hash.slice(1);
    await app.client.unsafe(`
      create function full_disk() returns trigger language plpgsql as $$
        begin raise exception 'could not extend file' using errcode = '53100'; end $$;
      create trigger full_disk before update on sign_in_ways for each row execute function full_disk()`);
    const use = () => send('POST', '/api/one-time/password', { token, password: `${TEST_PASSWORD} two` });
    expect((await use()).status).toBe(507);
    await app.client.unsafe('drop trigger full_disk on sign_in_ways');
    expect((await use()).status).toBe(200);
  });
});

describe('an admin', () => {
  it('works for all depots', async () => {
    const admin = await signInAs(app, 'admin');
    await send('POST', '/api/depots', { id: 'east', name: 'East', bays: 1, time_zone: 'UTC' }, admin.headers);
    const who = { name: 'Scoped', email: 'scoped@tests.example', role: 'admin', depots: ['east'] };
    const refused = await send('POST', '/api/people', who, admin.headers);
    expect([refused.status, (await refused.json()).errors]).toEqual([
      400,
      [{ field: 'depots', message: 'must be all depots for an admin' }],
    ]);
    const planner = await send('POST', '/api/people', { ...who, role: 'planner' }, admin.headers);
    const { person } = await planner.json();
    const raised = await send('PATCH', `/api/people/${person.id}`, { role: 'admin' }, admin.headers);
    expect(raised.status).toBe(400);
    const all = { role: 'admin', depots: null };
    expect((await send('PATCH', `/api/people/${person.id}`, all, admin.headers)).status).toBe(200);
  });

  it('of some depots, as storage may still have one, opens nothing of people, keys and changes', async () => {
    const scoped = await signInAs(app, 'admin', { depots: ['east'] });
    for (const path of ['/api/people', '/api/keys', '/api/changes', '/api/changes.csv'])
      expect((await send('GET', path, undefined, scoped.headers)).status, path).toBe(403);
  });
});

describe('the password now, when another is set', () => {
  it('cannot be guessed: ten wrong ones lock the account', async () => {
    const planner = await signInAs(app, 'planner');
    const change = (current: string) =>
      send('POST', '/api/password', { current, password: `${TEST_PASSWORD} two` }, planner.headers);
    for (let tries = 0; tries < 10; tries += 1) expect((await change(`wrong ${tries}`)).status).toBe(400);
    expect((await change(TEST_PASSWORD)).status).toBe(429);
    const [noted] = await app.client`select count(*) as n from changes where action = 'locked_out'`;
    expect(noted).toEqual({ n: 1 });
  });
});

describe('odd requests', () => {
  it('with NUL in the address or body are refused, not failed at', async () => {
    const admin = await signInAs(app, 'admin');
    for (const path of ['changes?actor=a%00b', 'changes?subject_id=%00', 'vehicles/a%00b', 'people/%00'])
      expect((await send('GET', `/api/${path}`, undefined, admin.headers)).status, path).toBe(400);
    expect((await send('DELETE', '/api/keys/%00', undefined, admin.headers)).status).toBe(400);
    const bodies: [string, unknown][] = [
      ['/api/session', { email: 'a\u0000b@x.example', password: 'p' }],
      ['/api/one-time', { token: '\u0000'.repeat(20) }],
    ];
    for (const [path, body] of bodies) expect((await send('POST', path, body)).status, path).toBe(400);
  });

  it('of a type that is nearly JSON are refused', async () => {
    const admin = await signInAs(app, 'admin');
    const headers = { ...admin.headers, 'content-type': 'application/json;x' };
    expect((await send('POST', '/api/depots', { id: 'a', name: 'A' }, headers)).status).toBe(415);
  });

  it('are answered with what no cache keeps', async () => {
    const admin = await signInAs(app, 'admin');
    for (const path of ['/api/ranking', '/api/people', '/api/session'])
      expect((await send('GET', path, undefined, admin.headers)).headers.get('cache-control')).toBe(
        'no-store',
      );
  });
});

describe('a key', () => {
  it('that may only deliver is told whose it is, and stores nothing by that', async () => {
    const admin = await signInAs(app, 'admin');
    const made = await send('POST', '/api/keys', { name: 'north gate', right: 'deliver' }, admin.headers);
    const { secret } = await made.json();
    const answer = await send('GET', '/api/session', undefined, { authorization: `Bearer ${secret}` });
    expect(await answer.json()).toMatchObject({ person: null, key: { name: 'north gate' } });
    expect(await app.client`select count(*) as n from readings`).toEqual([{ n: 0 }]);
  });
});
