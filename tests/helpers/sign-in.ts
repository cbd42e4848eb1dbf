import { randomUUID } from 'node:crypto';
import { hashPassword } from 'better-auth/crypto';
import type { Page } from 'playwright-core';
import type { Role } from '#server/contract/words.ts';
import { addAccount } from '#server/services/people/one-time-address.ts';
import { signIn } from '#server/services/people/sign-in.ts';
import { toCookieHeader } from '#server/services/people/sign-in-library.ts';
import type { TestApp } from './start-app.ts';

export const TEST_PASSWORD = 'a password of the tests';
/** Made once: it is slow on purpose. */
let testHash: Promise<string> | undefined;

export interface SignedInPerson {
  email: string;
  name: string;
  /** for a Cookie header */
  cookie: string;
  /** of calls that a page of the server would make */
  headers: Record<string, string>;
}

/** An account of this role, signed in. */
export async function signInAs(
  app: TestApp,
  role: Role,
  { depots = null, name = `${role} of the tests` }: { depots?: string[] | null; name?: string } = {},
): Promise<SignedInPerson> {
  testHash ??= hashPassword(TEST_PASSWORD);
  const email = `${role}-${randomUUID()}@tests.example`;
  await addAccount(app.running.context, {
    name,
    email,
    role,
    depots,
    hash: await testHash,
  });
  // Not over the interface: it holds an address to some attempts a minute, and tests make many accounts.
  const { context, people } = app.running;
  const cookies = await signIn(context, people.library, { email, password: TEST_PASSWORD }, new Headers());
  return { email, name, ...asBrowser(app, cookies) };
}

/** Signs in and answers the cookie. */
export async function signInWith(app: Pick<TestApp, 'url'>, email: string, password: string) {
  const answer = await fetch(`${app.url}/api/session`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ email, password }),
  });
  if (answer.status !== 200) throw new Error(`sign-in answered ${answer.status}: ${await answer.text()}`);
  return asBrowser(app, answer.headers.getSetCookie());
}

/** What a browser would send back. */
function asBrowser({ url }: Pick<TestApp, 'url'>, cookies: readonly string[]) {
  const cookie = toCookieHeader(cookies);
  return { cookie, headers: { cookie, origin: url, 'content-type': 'application/json' } };
}

/** Lets a browser page go on as somebody of this role. */
export async function signInPage(page: Page, app: TestApp, role: Role = 'admin'): Promise<void> {
  const { cookie } = await signInAs(app, role);
  await page.context().addCookies(
    cookie.split('; ').map((pair) => {
      const at = pair.indexOf('=');
      return { name: pair.slice(0, at), value: pair.slice(at + 1), url: app.url };
    }),
  );
}
