import { once } from 'node:events';
import type { AddressInfo } from 'node:net';
import { createServer } from 'node:net';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Role } from '#server/contract/words.ts';
import { createCookieBrowser } from '#tests/helpers/cookie-browser.ts';
import { signInAs } from '#tests/helpers/sign-in.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';
import { type StartedProvider, startProvider } from '#tests/helpers/start-provider.ts';

let provider: StartedProvider;
let app: TestApp;

beforeAll(async () => {
  const port = await freePort();
  const publicUrl = `http://127.0.0.1:${port}`;
  provider = await startProvider(`${publicUrl}/api/session/callback/company`);
  const { issuer, clientId, clientSecret } = provider;
  app = await startApp({
    port,
    publicUrl,
    company: { issuer, clientId, clientSecret, name: 'the transit account' },
  });
});
afterAll(async () => {
  await app?.stop();
  await provider?.stop();
});

async function freePort(): Promise<number> {
  const server = createServer().listen(0, '127.0.0.1');
  await once(server, 'listening');
  const { port } = server.address() as AddressInfo;
  server.close();
  await once(server, 'close');
  return port;
}

type Browser = ReturnType<typeof createCookieBrowser>;

async function begin(browser: Browser, to = '/platforms'): Promise<string> {
  const answer = await browser.send(`${app.url}/api/session/company`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ to }),
  });
  expect(answer.status).toBe(200);
  return (await answer.json()).url;
}

/** Through the provider's forms, as a person would, to where the browser ends up. */
async function walk(browser: Browser, account: string, to?: string): Promise<URL> {
  let page = await browser.follow(await begin(browser, to));
  const form = (fields: Record<string, string>): RequestInit => ({
    method: 'POST',
    headers: { 'content-type': 'application/x-www-form-urlencoded' },
    body: new URLSearchParams(fields).toString(),
  });
  for (const fields of [{ prompt: 'login', login: account, password: 'any' }, { prompt: 'consent' }]) {
    if (!page.address.startsWith(provider.issuer)) break;
    page = await browser.follow(page.address, form(fields as Record<string, string>));
  }
  return new URL(page.address);
}

async function invite(role: Role): Promise<string> {
  const admin = await signInAs(app, 'admin');
  const email = `${role}-${Math.random().toString(36).slice(2)}@company.example`;
  const answer = await fetch(`${app.url}/api/people`, {
    method: 'POST',
    headers: admin.headers,
    body: JSON.stringify({ name: `Invited ${role}`, email, role }),
  });
  expect(answer.status).toBe(200);
  return email;
}

const who = async (browser: Browser) => (await browser.send(`${app.url}/api/session`)).json();

describe('sign-in through the company', () => {
  it('is offered under its name', async () => {
    expect(await who(createCookieBrowser())).toMatchObject({ company: { name: 'the transit account' } });
  });

  it('lets an invited person in, back at the screen that was asked for, with the role given here', async () => {
    const email = await invite('analyst');
    provider.accounts.set('ada', { email, email_verified: true, name: 'Ada of the Company' });
    const browser = createCookieBrowser();
    const end = await walk(browser, 'ada', '/platforms?q=1');
    expect(end.href).toBe(`${app.url}/platforms?q=1`);
    expect((await who(browser)).person).toMatchObject({ email, role: 'analyst', name: 'Invited analyst' });
    expect((await browser.send(`${app.url}/api/movement`)).status).toBe(200);
    expect((await browser.send(`${app.url}/api/people`)).status).toBe(403);
    const noted = await app.client`
      select action, from_address from changes c join people p on p.id = c.subject_id where p.email = ${email} order by c.id`;
    expect(noted.map((row) => row.action)).toEqual(['invited', 'signed_in']);
    const [way] = await app.client`
      select provider_id, account_id, access_token, refresh_token, id_token from sign_in_ways w join people p on p.id = w.user_id
      where p.email = ${email}`;
    expect(way).toEqual({
      provider_id: 'company',
      account_id: 'ada',
      access_token: null,
      refresh_token: null,
      id_token: null,
    });
    // Once more: the account is known by the provider's subject now, whatever its e-mail address becomes.
    provider.accounts.set('ada', { email: 'renamed@company.example', email_verified: true, name: 'Ada' });
    const again = createCookieBrowser();
    expect((await walk(again, 'ada')).pathname).toBe('/platforms');
    expect((await who(again)).person).toMatchObject({ email });
  });

  it.each([
    [
      'nobody here knows',
      { email: 'stranger@company.example', email_verified: true, name: 'Stranger' },
      'unknown',
    ],
    ['has not shown that the address is theirs', null, 'unknown'],
  ] as const)('does not let in whom %s', async (what, account, reason) => {
    const email = account === null ? await invite('planner') : account.email;
    provider.accounts.set(what, account ?? { email, email_verified: false, name: 'Somebody' });
    const before = await countPeople();
    const browser = createCookieBrowser();
    const end = await walk(browser, what);
    expect(end.pathname + end.search).toBe(`/sign-in?company=${reason}`);
    expect((await who(browser)).person).toBeNull();
    expect(await countPeople()).toBe(before);
  });

  it('does not let in whose account is closed', async () => {
    const email = await invite('planner');
    await app.client`update people set closed = true where email = ${email}`;
    provider.accounts.set('closed', { email, email_verified: true, name: 'Closed' });
    const browser = createCookieBrowser();
    const end = await walk(browser, 'closed');
    expect(end.pathname + end.search).toBe('/sign-in?company=closed');
    expect((await who(browser)).person).toBeNull();
  });

  it('refuses an answer that was not asked for by this browser, or comes twice', async () => {
    const email = await invite('admin');
    provider.accounts.set('eve', { email, email_verified: true, name: 'Eve' });
    // Eve signs in with her own account and gives the last address to somebody else, who would then work as Eve.
    const eve = createCookieBrowser();
    const addresses: string[] = [];
    const spying = { send: eve.send, follow: followAndNote(eve, addresses) };
    await walk(spying, 'eve');
    const callback = addresses.find((one) => one.includes('/callback/company')) ?? '';
    expect(callback).toContain('code=');
    const victim = createCookieBrowser();
    const end = await victim.follow(callback);
    expect(new URL(end.address).pathname).toBe('/sign-in');
    expect((await who(victim)).person).toBeNull();
    expect(new URL((await eve.follow(callback)).address).pathname).toBe('/sign-in');
  });

  it('refuses to send people anywhere but to our own screens', async () => {
    for (const to of [
      'https://elsewhere.example',
      '//elsewhere.example',
      '/\\elsewhere.example',
      'javascript:alert(1)',
    ]) {
      const answer = await fetch(`${app.url}/api/session/company`, {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify({ to }),
      });
      expect(answer.status, to).toBe(400);
    }
  });
});

async function countPeople(): Promise<number> {
  const [row] = await app.client`select count(*) as n from people where role <> 'admin'`;
  return Number(row?.n);
}

function followAndNote(browser: Browser, addresses: string[]): Browser['follow'] {
  return async (address, init) => {
    let at = address;
    let answer = await browser.send(at, init);
    for (let next = answer.headers.get('location'); next !== null; next = answer.headers.get('location')) {
      at = new URL(next, at).href;
      addresses.push(at);
      answer = await browser.send(at);
    }
    return { address: at, answer };
  };
}

describe('a company whose provider is away', () => {
  it('does not keep the program from starting, and says so to who tries', async () => {
    const alone = await startApp({
      publicUrl: 'http://127.0.0.1:9',
      company: { issuer: 'http://127.0.0.1:9', clientId: 'x', clientSecret: 'y', name: 'the account' },
    });
    try {
      const answer = await fetch(`${alone.url}/api/session/company`, {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: '{}',
      });
      expect(answer.status).toBe(503);
      expect(await answer.json()).toMatchObject({ code: 'busy' });
    } finally {
      await alone.stop();
    }
  });
});
