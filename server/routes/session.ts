import type { Context } from 'hono';
import { createMiddleware } from 'hono/factory';
import { z } from 'zod';
import {
  companySignInRequest,
  oneTimeAddress,
  oneTimeLook,
  oneTimeUse,
  ownSession,
  passwordChange,
  type Session,
  session,
  signInRequest,
} from '#server/contract/people.ts';
import { createRate } from '#server/services/access/hold-rate.ts';
import { networkOf } from '#server/services/access/network-of.ts';
import { nobody } from '#server/services/actor.ts';
import { finishCompanySignIn, startCompanySignIn } from '#server/services/people/company-sign-in.ts';
import { describeSession } from '#server/services/people/describe-session.ts';
import { findPerson } from '#server/services/people/find-person.ts';
import { readOneTimeAddress, useOneTimeAddress } from '#server/services/people/one-time-address.ts';
import {
  changePassword,
  endAllSessions,
  endOwnSession,
  listOwnSessions,
  ownId,
  signOut,
} from '#server/services/people/own-sessions.ts';
import { signIn } from '#server/services/people/sign-in.ts';
import { toCookieHeader } from '#server/services/people/sign-in-library.ts';
import type { RequestEnv, RouteDeps } from './deps.ts';
import { newCall } from './new-call.ts';
import { asJson, newRoutes, problems } from './new-routes.ts';

/** Of one network address: a person mistypes now and then, a whole office may share an address. */
const ATTEMPTS_PER_MINUTE = 30;

const body = <S extends z.ZodType>(schema: S) => ({ body: { required: true, ...asJson(schema) } });
const who = { description: 'Who asks', ...asJson(session) };

const calls = {
  look: newCall('anyone', {
    method: 'get',
    path: '/api/session',
    summary: 'Who asks, and how to sign in here',
    responses: { 200: who },
  }),
  signIn: newCall('anyone', {
    method: 'post',
    path: '/api/session',
    summary: 'Sign in by password',
    description: 'Sets a cookie. After ten wrong passwords in a row the address is locked for 15 minutes.',
    request: body(signInRequest),
    responses: { 200: who, ...problems(400, 401, 429) },
  }),
  signOut: newCall('anyone', {
    method: 'delete',
    path: '/api/session',
    summary: 'Sign out here',
    responses: { 204: { description: 'Signed out' } },
  }),
  company: newCall('anyone', {
    method: 'post',
    path: '/api/session/company',
    summary: 'Begin to sign in through the company',
    request: body(companySignInRequest),
    responses: {
      200: { description: 'Where to send the browser', ...asJson(z.object({ url: z.url() })) },
      ...problems(400, 404, 429, 503),
    },
  }),
  back: newCall('anyone', {
    method: 'get',
    path: '/api/session/callback/company',
    summary: 'Where the company sends the browser back to',
    responses: { 302: { description: 'To the screen that was asked for, or to the sign-in with a reason' } },
  }),
  list: newCall('self', {
    method: 'get',
    path: '/api/sessions',
    summary: 'Where you are signed in',
    responses: { 200: { description: 'The newest use first', ...asJson(z.array(ownSession)) } },
  }),
  endOne: newCall('self', {
    method: 'delete',
    path: '/api/sessions/{id}',
    summary: 'Sign out in one place',
    request: { params: z.object({ id: z.string().max(64) }) },
    responses: { 204: { description: 'Signed out there' }, ...problems(404) },
  }),
  endAll: newCall('self', {
    method: 'delete',
    path: '/api/sessions',
    summary: 'Sign out everywhere, here too',
    responses: { 204: { description: 'Signed out everywhere' } },
  }),
  password: newCall('self', {
    method: 'post',
    path: '/api/password',
    summary: 'Change your password; your other sessions end',
    request: body(passwordChange),
    responses: { 204: { description: 'Changed' }, ...problems(400) },
  }),
  lookOneTime: newCall('anyone', {
    method: 'post',
    path: '/api/one-time',
    summary: 'What a one-time address is for',
    request: body(oneTimeLook),
    responses: { 200: { description: 'It works', ...asJson(oneTimeAddress) }, ...problems(400, 404, 429) },
  }),
  useOneTime: newCall('anyone', {
    method: 'post',
    path: '/api/one-time/password',
    summary: 'Set a password at a one-time address, and sign in',
    request: body(oneTimeUse),
    responses: { 200: who, ...problems(400, 404, 429) },
  }),
};

export function createSessionRoutes({ people }: RouteDeps) {
  const { library } = people;
  const routes = newRoutes();
  const rate = createRate(ATTEMPTS_PER_MINUTE);
  const limit = createMiddleware<RequestEnv>(async (c, next) => {
    const { from } = c.var.context.actor;
    await rate(networkOf(from ?? 'unknown'), 'Too many attempts from this address. Wait a minute.');
    await next();
  });
  routes.on(
    'POST',
    ['/api/session', '/api/session/company', '/api/one-time', '/api/one-time/password'],
    limit,
  );
  routes.on('POST', '/api/password', limit);
  routes.get('/api/session/callback/company', limit);

  routes.openapi(calls.look, async (c) => c.json(await describe(c), 200));
  routes.openapi(calls.signIn, async (c) => {
    const given = c.req.valid('json');
    const cookies = await signIn(c.var.context, library, given, c.req.raw.headers);
    return c.json(await describe(c, cookies), 200);
  });
  routes.openapi(calls.signOut, async (c) => {
    setCookies(c, await signOut(c.var.context, library, c.req.raw.headers));
    return c.body(null, 204);
  });
  routes.openapi(calls.company, async (c) => {
    const { to } = c.req.valid('json');
    const { url, cookies } = await startCompanySignIn(people, to, c.req.raw.headers);
    setCookies(c, cookies);
    return c.json({ url }, 200);
  });
  routes.openapi(calls.back, async (c) => {
    const { location, cookies } = await finishCompanySignIn(c.var.context, people, c.req.raw);
    setCookies(c, cookies);
    return c.redirect(location, 302);
  });
  routes.openapi(calls.list, async (c) =>
    c.json(await listOwnSessions(c.var.context, c.var.signedIn?.sessionId ?? null), 200),
  );
  routes.openapi(calls.endOne, async (c) => {
    await endOwnSession(c.var.context, c.req.valid('param').id);
    return c.body(null, 204);
  });
  routes.openapi(calls.endAll, async (c) => {
    await endAllSessions(c.var.context, ownId(c.var.context));
    setCookies(c, await signOut(c.var.context, library, c.req.raw.headers));
    return c.body(null, 204);
  });
  routes.openapi(calls.password, async (c) => {
    const given = c.req.valid('json');
    setCookies(c, await changePassword(c.var.context, library, given, c.req.raw.headers));
    return c.body(null, 204);
  });
  routes.openapi(calls.lookOneTime, async (c) =>
    c.json(await readOneTimeAddress(c.var.context, library, c.req.valid('json').token), 200),
  );
  routes.openapi(calls.useOneTime, async (c) => {
    const given = c.req.valid('json');
    const { email } = await useOneTimeAddress(c.var.context, library, given);
    const cookies = await signIn(
      c.var.context,
      library,
      { email, password: given.password },
      c.req.raw.headers,
    );
    return c.json(await describe(c, cookies), 200);
  });

  /** The session that the request named, or the one that has just begun with these cookies. */
  async function describe(c: Context<RequestEnv>, begun?: string[]): Promise<Session> {
    c.header('Cache-Control', 'no-store');
    const { context } = c.var;
    if (begun === undefined) return describeSession(context, people, c.var.signedIn);
    setCookies(c, begun);
    const headers = new Headers({ cookie: toCookieHeader(begun) });
    return describeSession(
      { ...context, actor: nobody },
      people,
      await findPerson(context, library, headers),
    );
  }

  return routes;
}

function setCookies(c: Context, cookies: readonly string[]): void {
  for (const cookie of cookies) c.header('Set-Cookie', cookie, { append: true });
}
