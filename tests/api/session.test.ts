import { createHash } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { session } from '#server/contract/people.ts';
import { programActor } from '#server/services/actor.ts';
import { offerFirstAccount } from '#server/services/people/one-time-address.ts';
import { toCookieHeader } from '#server/services/people/sign-in-library.ts';
import { signInAs, signInWith, TEST_PASSWORD } from '#tests/helpers/sign-in.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';

let app: TestApp;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app?.stop());

const JSON_TYPE = { 'content-type': 'application/json' };
const post = (path: string, body: unknown, headers: Record<string, string> = {}) =>
  fetch(app.url + path, {
    method: 'POST',
    headers: { ...JSON_TYPE, ...headers },
    body: JSON.stringify(body),
  });
const get = (path: string, headers: Record<string, string> = {}) => fetch(app.url + path, { headers });
const del = (path: string, headers: Record<string, string>) =>
  fetch(app.url + path, { method: 'DELETE', headers });
const lookAt = async (headers: Record<string, string> = {}) =>
  session.parse(await (await get('/api/session', headers)).json());
/** Tests ask more often than people: each begins with all its attempts. */
let addresses = 0;
function from() {
  addresses += 1;
  return { 'x-forwarded-for': `192.0.2.${addresses}` };
}

describe('the first account', () => {
  it('is an admin, made once at the address that the start offers', async () => {
    const { context, people } = app.running;
    const ctx = { ...context, actor: programActor('test') };
    expect(await lookAt()).toMatchObject({ person: null, key: null, first: true, demo: null, company: null });
    const offered = await offerFirstAccount(ctx, people.library);
    const again = await offerFirstAccount(ctx, people.library);
    const token = offered?.token ?? '';
    const looked = await post('/api/one-time', { token });
    expect(await looked.json()).toMatchObject({ purpose: 'first_admin', name: null, email: null });
    const kept = await app.client`select identifier from one_time_tokens`;
    expect(kept.map((row) => row.identifier).join()).not.toContain(token);

    const short = await post('/api/one-time/password', {
      token,
      name: 'Ada',
      email: 'ada@tests.example',
      password: 'short',
    });
    expect(short.status).toBe(400);
    expect(await short.json()).toMatchObject({ errors: [{ field: 'password' }] });
    const nameless = await post('/api/one-time/password', { token, password: TEST_PASSWORD });
    expect(nameless.status).toBe(400);

    const made = await post('/api/one-time/password', {
      token,
      name: 'Ada',
      email: 'Ada@Tests.example',
      password: TEST_PASSWORD,
    });
    expect(made.status).toBe(200);
    expect(await made.json()).toMatchObject({
      person: { name: 'Ada', email: 'ada@tests.example', role: 'admin', depots: null },
      first: false,
    });
    expect(made.headers.getSetCookie().join()).toMatch(/slipdrift\.session_token=.+HttpOnly; SameSite=Lax/i);
    for (const used of [token, again?.token ?? '']) {
      expect((await post('/api/one-time', { token: used })).status).toBe(404);
      const twice = await post('/api/one-time/password', {
        token: used,
        name: 'Eve',
        email: 'eve@tests.example',
        password: TEST_PASSWORD,
      });
      expect(twice.status).toBe(404);
    }
    expect(await offerFirstAccount(ctx, people.library)).toBeNull();
    const [row] = await app.client`select count(*) as n from people`;
    expect(row?.n).toBe(1);
  });
});

describe('a session', () => {
  it('begins with the password, says who asks, and ends', async () => {
    const { email, name } = await signInAs(app, 'planner', { depots: null });
    const { headers } = await signInWith(app, email.toUpperCase(), TEST_PASSWORD);
    expect((await lookAt(headers)).person).toMatchObject({ name, email, role: 'planner' });
    expect((await get('/api/ranking', headers)).status).toBe(200);
    const out = await del('/api/session', headers);
    expect(out.status).toBe(204);
    expect(out.headers.getSetCookie().join()).toMatch(/slipdrift\.session_token=;.*Max-Age=0/i);
    expect((await get('/api/ranking', headers)).status).toBe(401);
    expect((await lookAt(headers)).person).toBeNull();
  });

  it('says the same of a wrong password as of an address that nobody has', async () => {
    const { email } = await signInAs(app, 'planner');
    const wrong = await post('/api/session', { email, password: 'not the password' });
    const nobody = await post('/api/session', {
      email: 'nobody@tests.example',
      password: 'not the password',
    });
    expect([wrong.status, nobody.status]).toEqual([401, 401]);
    const text = async (answer: Response) => ({ ...(await answer.json()), request: '' });
    expect(await text(wrong)).toEqual(await text(nobody));
    expect(wrong.headers.getSetCookie()).toEqual([]);
  });

  it('does not begin with a cookie that somebody made up or changed', async () => {
    const { cookie } = await signInAs(app, 'admin');
    const [name = '', value = ''] = cookie.split('=');
    const token = decodeURIComponent(value).split('.')[0];
    const forged = [
      `${name}=${token}`,
      `${name}=${token}.${'A'.repeat(43)}%3D`,
      `${name}=`,
      `${name}=${value.slice(0, -6)}AAAAAA`,
      `${name}=${'%00'.repeat(9)}`,
      `${name}=${'x'.repeat(6000)}`,
    ];
    for (const one of forged)
      expect((await get('/api/people', { cookie: one })).status, one.slice(0, 60)).toBe(401);
  });

  it('is listed with all others of the person, each of which can be ended, or all at once', async () => {
    const { email, headers: first } = await signInAs(app, 'analyst');
    const second = (await signInWith(app, email, TEST_PASSWORD)).headers;
    const third = (await signInWith(app, email, TEST_PASSWORD)).headers;
    const other = await signInAs(app, 'analyst');
    const rows = await (await get('/api/sessions', third)).json();
    expect(rows).toHaveLength(3);
    expect(rows.filter((row: { current: boolean }) => row.current)).toHaveLength(1);
    expect(rows.find((row: { current: boolean }) => row.current).from).toMatch(/127\.0\.0\.1|::1/);
    const [mine] = await (await get('/api/sessions', first))
      .json()
      .then((all) => all.filter((row: { current: boolean }) => row.current));
    expect((await del(`/api/sessions/${mine.id}`, other.headers)).status).toBe(404);
    expect((await get('/api/ranking', first)).status).toBe(200);
    expect((await del(`/api/sessions/${mine.id}`, third)).status).toBe(204);
    expect((await get('/api/ranking', first)).status).toBe(401);
    expect((await del('/api/sessions', second)).status).toBe(204);
    for (const headers of [second, third]) expect((await get('/api/ranking', headers)).status).toBe(401);
    expect((await get('/api/ranking', other.headers)).status).toBe(200);
  });

  it('outlives a change of the password only where it was changed', async () => {
    const { email, headers } = await signInAs(app, 'planner');
    const elsewhere = (await signInWith(app, email, TEST_PASSWORD)).headers;
    const change = { current: 'wrong', password: 'another one of the tests' };
    const wrong = await post('/api/password', change, headers);
    expect(wrong.status).toBe(400);
    expect(await wrong.json()).toMatchObject({ errors: [{ field: 'current' }] });
    expect((await get('/api/ranking', elsewhere)).status).toBe(200);
    const right = await post('/api/password', { ...change, current: TEST_PASSWORD }, headers);
    expect(right.status).toBe(204);
    const cookie = toCookieHeader(right.headers.getSetCookie());
    expect((await get('/api/ranking', { cookie })).status).toBe(200);
    expect((await get('/api/ranking', elsewhere)).status).toBe(401);
    expect((await post('/api/session', { email, password: TEST_PASSWORD })).status).toBe(401);
    expect((await post('/api/session', { email, password: change.password })).status).toBe(200);
  });

  it('ends by itself after a week in which it was not used', async () => {
    const { headers, email } = await signInAs(app, 'planner');
    const ends = await app.client`
      select extract(epoch from expires_at - now()) / 86400 as days from sessions s join people p on p.id = s.user_id
      where p.email = ${email}`;
    expect(Number(ends[0]?.days)).toBeCloseTo(7, 1);
    await app.client`
      update sessions set expires_at = now() - interval '1 second' from people p where p.id = user_id and p.email = ${email}`;
    expect((await get('/api/ranking', headers)).status).toBe(401);
  });
});

describe('a request with a cookie', () => {
  it('changes nothing unless it comes from a page of ours', async () => {
    const { cookie } = await signInAs(app, 'admin');
    const body = { id: 'csrf', name: 'Made by another site' };
    for (const origin of ['https://elsewhere.example', 'null', 'http://localhost:1', 'http://127.0.0.1'])
      expect((await post('/api/depots', body, { cookie, origin })).status, origin).toBe(403);
    expect((await post('/api/depots', body, { cookie })).status).toBe(403);
    // What a form of another site could send without asking: the types that need no permission of ours.
    for (const type of ['text/plain', 'application/x-www-form-urlencoded', 'multipart/form-data'])
      for (const path of ['/api/depots', '/api/assess', '/api/session'])
        expect([403, 415]).toContain(
          (await post(path, body, { cookie, origin: 'https://elsewhere.example', 'content-type': type }))
            .status,
        );
    const [row] = await app.client`select count(*) as n from depots where id = 'csrf'`;
    expect(row?.n).toBe(0);
    expect((await post('/api/depots', body, { cookie, origin: app.url })).status).toBe(200);
  });

  it('lets no other site read the answer', async () => {
    const { cookie } = await signInAs(app, 'admin');
    const answer = await get('/api/people', { cookie, origin: 'https://elsewhere.example' });
    expect(answer.headers.get('access-control-allow-origin')).toBeNull();
    expect(answer.headers.get('cross-origin-resource-policy')).toBe('same-origin');
  });
});

describe('wrong passwords', () => {
  it('lock an address after ten in a row, whoever has it, until the time is over or an admin opens it', async () => {
    const admin = await signInAs(app, 'admin');
    const { email, headers } = await signInAs(app, 'planner');
    for (const address of [email, 'no-account@tests.example']) {
      const statuses: number[] = [];
      const behind = await startAttempts();
      for (let i = 0; i < 11; i += 1) statuses.push((await behind(address, `guess ${i}`)).status);
      expect(statuses).toEqual([...Array(10).fill(401), 429]);
      const right = await behind(address, TEST_PASSWORD);
      expect(right.status).toBe(429);
      expect(Number(right.headers.get('retry-after'))).toBeGreaterThan(800);
    }
    // Where the person is signed in already nothing changes: nobody can be thrown out by guessing.
    expect((await get('/api/ranking', headers)).status).toBe(200);
    const people = await (await get('/api/people', admin.headers)).json();
    const locked = people.find((one: { email: string }) => one.email === email);
    expect(locked).toMatchObject({ state: 'locked' });
    const opened = await fetch(`${app.url}/api/people/${locked.id}`, {
      method: 'PATCH',
      headers: admin.headers,
      body: JSON.stringify({ unlock: true }),
    });
    expect(await opened.json()).toMatchObject({ state: 'active', locked_until: null });
    const behind = await startAttempts();
    expect((await behind(email, TEST_PASSWORD)).status).toBe(200);
    const noted = await app.client`select action from changes where subject_id = ${locked.id} order by id`;
    expect(noted.map((row) => row.action)).toEqual([
      'created',
      'signed_in',
      'locked_out',
      'changed',
      'signed_in',
    ]);
  });

  it('count all at once as one after the other', async () => {
    const { email } = await signInAs(app, 'planner');
    const behind = await startAttempts();
    const answers = await Promise.all(Array.from({ length: 25 }, (_, i) => behind(email, `guess ${i}`)));
    const statuses = answers.map(({ status }) => status);
    expect(statuses.filter((status) => status === 401)).toHaveLength(10);
    expect(statuses.filter((status) => status === 429)).toHaveLength(15);
  });

  it('are limited for each network address, whomever they are about', async () => {
    const behind = await startAttempts();
    const answers = await Promise.all(
      Array.from({ length: 40 }, (_, i) => behind(`guess-${i}@tests.example`, 'a guess')),
    );
    const late = answers.filter(({ status }) => status === 429);
    expect(late).toHaveLength(10);
    expect(Number(late[0]?.headers.get('retry-after'))).toBeGreaterThan(0);
  });
});

/** Attempts from an address of their own, told by the one proxy of a second server on the same database. */
async function startAttempts() {
  proxied ??= await startApp({ proxies: 1, databaseUrl: app.databaseUrl });
  const { url } = proxied;
  const address = from();
  return (email: string, password: string) =>
    fetch(`${url}/api/session`, {
      method: 'POST',
      headers: { ...JSON_TYPE, ...address },
      body: JSON.stringify({ email, password }),
    });
}
let proxied: TestApp | undefined;
afterAll(() => proxied?.stop());

describe('a person', () => {
  const invite = async (admin: { headers: Record<string, string> }, changes: object = {}) => {
    const answer = await post(
      '/api/people',
      { name: 'Noor', email: `noor-${Math.random()}@tests.example`, role: 'planner', ...changes },
      admin.headers,
    );
    return { status: answer.status, reply: await answer.json() };
  };
  const tokenOf = (address: string) => new URL(address).hash.slice(1);

  it('is invited to an address that works once, and sets a password there', async () => {
    const admin = await signInAs(app, 'admin');
    const { status, reply } = await invite(admin);
    expect(status).toBe(200);
    expect(reply.address.startsWith(`${app.url}/welcome#`)).toBe(true);
    expect(reply.person).toMatchObject({ state: 'invited', role: 'planner', depots: null, sessions: 0 });
    const token = tokenOf(reply.address);
    expect(await (await post('/api/one-time', { token })).json()).toMatchObject({
      purpose: 'invitation',
      name: 'Noor',
      email: reply.person.email,
    });
    const set = await post('/api/one-time/password', { token, password: TEST_PASSWORD, name: 'Noor A.' });
    expect(await set.json()).toMatchObject({ person: { name: 'Noor A.', role: 'planner' } });
    expect((await post('/api/one-time/password', { token, password: TEST_PASSWORD })).status).toBe(404);
    const people = await (await get('/api/people', admin.headers)).json();
    expect(people.find((one: { id: string }) => one.id === reply.person.id)).toMatchObject({
      state: 'active',
      sessions: 1,
      signed_in_at: expect.any(String),
    });
    expect((await invite(admin, { email: reply.person.email })).status).toBe(409);
    expect((await invite(admin, { depots: ['nowhere'] })).status).toBe(400);
    expect((await invite(admin, { role: 'owner' })).status).toBe(400);
    expect((await invite(admin, { email: 'no address' })).status).toBe(400);
  });

  it('gets a new password from an admin: the address before it and all sessions end', async () => {
    const admin = await signInAs(app, 'admin');
    const { email, headers } = await signInAs(app, 'planner');
    const people = await (await get('/api/people', admin.headers)).json();
    const { id } = people.find((one: { email: string }) => one.email === email);
    const first = await (await post(`/api/people/${id}/address`, {}, admin.headers)).json();
    const second = await (await post(`/api/people/${id}/address`, {}, admin.headers)).json();
    expect((await post('/api/one-time', { token: tokenOf(first.address) })).status).toBe(404);
    const token = tokenOf(second.address);
    expect(await (await post('/api/one-time', { token })).json()).toMatchObject({ purpose: 'reset' });
    expect((await get('/api/ranking', headers)).status).toBe(200);
    expect((await post('/api/one-time/password', { token, password: 'yet another password' })).status).toBe(
      200,
    );
    expect((await get('/api/ranking', headers)).status).toBe(401);
    expect((await post('/api/session', { email, password: TEST_PASSWORD })).status).toBe(401);
  });

  it('whose address has run out gets nothing', async () => {
    const admin = await signInAs(app, 'admin');
    const { reply } = await invite(admin);
    await app.client`update one_time_tokens set expires_at = now() - interval '1 second' where value = ${reply.person.id}`;
    const token = tokenOf(reply.address);
    expect((await post('/api/one-time', { token })).status).toBe(404);
    expect((await post('/api/one-time/password', { token, password: TEST_PASSWORD })).status).toBe(404);
  });

  it('whose account is closed is out at once, and back when it is opened', async () => {
    const admin = await signInAs(app, 'admin');
    const { email, headers } = await signInAs(app, 'planner');
    const people = await (await get('/api/people', admin.headers)).json();
    const { id } = people.find((one: { email: string }) => one.email === email);
    const patch = (body: object) =>
      fetch(`${app.url}/api/people/${id}`, {
        method: 'PATCH',
        headers: admin.headers,
        body: JSON.stringify(body),
      });
    expect(await (await patch({ closed: true })).json()).toMatchObject({ state: 'closed', sessions: 0 });
    expect((await get('/api/ranking', headers)).status).toBe(401);
    const closed = await post('/api/session', { email, password: TEST_PASSWORD });
    expect(closed.status).toBe(401);
    expect(closed.headers.getSetCookie()).toEqual([]);
    expect((await post(`/api/people/${id}/address`, {}, admin.headers)).status).toBe(409);
    await patch({ closed: false, role: 'analyst' });
    const again = await signInWith(app, email, TEST_PASSWORD);
    expect((await lookAt(again.headers)).person).toMatchObject({ role: 'analyst' });
    // A role that is taken away is gone in sessions that are open.
    await patch({ role: 'shop' });
    expect((await get('/api/movement', again.headers)).status).toBe(403);
  });

  it('who is the last admin can neither be closed nor lose the role', async () => {
    const lonely = await startApp();
    try {
      const admin = await signInAs(lonely, 'admin');
      const [{ id }] = await (await fetch(`${lonely.url}/api/people`, { headers: admin.headers })).json();
      for (const body of [{ closed: true }, { role: 'planner' }]) {
        const answer = await fetch(`${lonely.url}/api/people/${id}`, {
          method: 'PATCH',
          headers: admin.headers,
          body: JSON.stringify(body),
        });
        expect(answer.status).toBe(409);
      }
    } finally {
      await lonely.stop();
    }
  });
});

describe('what is kept of secrets', () => {
  it('is a slow digest of a password, and a digest of a key, and no more', async () => {
    const admin = await signInAs(app, 'admin');
    const made = await (await post('/api/keys', { name: 'Gate', right: 'deliver' }, admin.headers)).json();
    const secret = made.secret.slice(-43);
    const digest = createHash('sha256').update(secret).digest('hex');
    const kept =
      await app.client`select encode(digest, 'hex') as hex from access_keys where id = ${made.key.id}`;
    expect(kept[0]?.hex).toBe(digest);
    const [everything] = await app.client`
      select string_agg(t::text, ' ') as text from (
        select row_to_json(a)::text as t from access_keys a union all select row_to_json(c)::text from changes c
        union all select row_to_json(w)::text from sign_in_ways w) as rows`;
    for (const one of [secret, made.secret, TEST_PASSWORD]) expect(everything?.text).not.toContain(one);
    expect(await (await get('/api/keys', admin.headers)).text()).not.toContain(secret);
    const [way] = await app.client`select password from sign_in_ways limit 1`;
    // The library's own form of scrypt: salt and key as hexadecimal digits, N = 16384, r = 16, p = 1.
    expect(way?.password).toMatch(/^[0-9a-f]{32}:[0-9a-f]{128}$/);
  });
});
