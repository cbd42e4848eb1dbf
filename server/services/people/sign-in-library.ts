import { randomUUID } from 'node:crypto';
import { eq } from 'drizzle-orm';
import type { Logger } from 'pino';
import type { Database } from '#db/client.ts';
import { oneTimeTokens, people, sessions, signInWays } from '#db/schema/access.ts';

export const COMPANY = 'company';
/** Header in which we tell the library the address that we found ourselves. */
const FROM_HEADER = 'x-slipdrift-from';
const HOUR_S = 3600;

export interface SignInOptions {
  db: Database;
  log: Logger;
  /** signs cookies */
  secret: string;
  /** origin that people use; null: this machine only */
  publicUrl: string | null;
  company: { issuer: string; clientId: string; clientSecret: string; name: string } | null;
}

export type SignInLibrary = Awaited<ReturnType<typeof createSignInLibrary>>;

/** Its modules take a third of a second: the start loads them beside what it waits for, other commands not at all. */
export async function loadSignInModules() {
  const [{ betterAuth }, { drizzleAdapter }, { genericOAuth }] = await Promise.all([
    import('better-auth/minimal'),
    import('better-auth/adapters/drizzle'),
    import('better-auth/plugins/generic-oauth'),
  ]);
  return { betterAuth, drizzleAdapter, genericOAuth };
}

/**
 * Passwords (scrypt), sessions in cookies and the company's OpenID Connect, by better-auth. Only `services/people/`
 * calls it: its own routes are not served, but for the one to which the company's provider sends people back.
 */
export async function createSignInLibrary({ db, log, secret, publicUrl, company }: SignInOptions) {
  const { betterAuth, drizzleAdapter, genericOAuth } = await loadSignInModules();
  return betterAuth({
    appName: 'Slipdrift',
    // Without a public address nothing is sent back here from elsewhere, and the name does not matter.
    baseURL: publicUrl ?? 'http://localhost',
    basePath: '/api/session',
    secret,
    telemetry: { enabled: false },
    database: drizzleAdapter(db, {
      provider: 'pg',
      schema: { user: people, session: sessions, account: signInWays, verification: oneTimeTokens },
    }),
    emailAndPassword: {
      enabled: true,
      disableSignUp: true,
      minPasswordLength: 12,
      maxPasswordLength: 128,
      revokeSessionsOnPasswordReset: true,
    },
    user: {
      additionalFields: {
        role: { type: 'string', required: true, input: false },
        depots: { type: 'string[]', required: false, input: false },
        closed: { type: 'boolean', required: false, input: false },
      },
    },
    session: { expiresIn: 7 * 24 * HOUR_S, updateAge: HOUR_S },
    account: { updateAccountOnSignIn: false },
    verification: { storeIdentifier: 'hashed' },
    plugins:
      company === null
        ? []
        : [
            genericOAuth({
              config: [
                {
                  providerId: COMPANY,
                  discoveryUrl: `${company.issuer.replace(/\/$/, '')}/.well-known/openid-configuration`,
                  requireIdTokenVerification: true,
                  clientId: company.clientId,
                  clientSecret: company.clientSecret,
                  scopes: ['openid', 'email', 'profile'],
                  disableSignUp: true,
                },
              ],
            }),
          ],
    databaseHooks: {
      session: { create: { before: async ({ userId }) => !(await isClosed(db, userId)) } },
      account: {
        create: {
          // The provider is asked who somebody is, and nothing afterwards: its tokens would only be something to lose.
          before: async (account) => ({
            data: { ...account, accessToken: null, refreshToken: null, idToken: null },
          }),
        },
      },
    },
    // The calls have limits of their own, which also hold where the library is called directly.
    rateLimit: { enabled: false },
    logger: {
      log: (level, message) => log[level === 'error' ? 'warn' : 'debug']({ library: 'sign-in' }, message),
    },
    advanced: {
      cookiePrefix: 'slipdrift',
      useSecureCookies: publicUrl?.startsWith('https:') ?? false,
      defaultCookieAttributes: { httpOnly: true, sameSite: 'lax' },
      ipAddress: { ipAddressHeaders: [FROM_HEADER] },
      database: { generateId: () => randomUUID() },
    },
  });
}

/** What the library is to know of a request: its cookies, its browser, and the address that we found. */
export function libraryHeaders(headers: Headers, from: string | null): Headers {
  const kept = new Headers();
  for (const name of ['cookie', 'user-agent', 'accept']) {
    const value = headers.get(name);
    if (value !== null) kept.set(name, value);
  }
  if (from !== null) kept.set(FROM_HEADER, from);
  return kept;
}

/** What a browser sends back of cookies that it was given. */
export const toCookieHeader = (cookies: readonly string[]): string =>
  cookies.map((cookie) => cookie.split(';')[0]).join('; ');

async function isClosed(db: Database, id: string): Promise<boolean> {
  const [row] = await db.select({ closed: people.closed }).from(people).where(eq(people.id, id));
  return row?.closed ?? true;
}
