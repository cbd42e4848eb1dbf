import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { createVerifier, httpbis } from 'http-message-signatures';
import { pino } from 'pino';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { openDatabase } from '#db/client.ts';
import { storeGradeChanges } from '#db/queries/store-grade-changes.ts';
import { claimPost, noteTry } from '#db/queries/webhook-posts.ts';
import { newWebhook, type Webhook, webhookPost, webhookPosts } from '#server/contract/webhooks.ts';
import { rankFleet } from '#server/services/assessment/rank-fleet.ts';
import type { Context } from '#server/services/context.ts';
import { announceChanges } from '#server/services/webhooks/announce-changes.ts';
import { forgetPosts } from '#server/services/webhooks/forget-posts.ts';
import { listPosts } from '#server/services/webhooks/list-webhooks.ts';
import { sendDuePosts } from '#server/services/webhooks/send-due-posts.ts';
import { type SignedInPerson, signInAs } from '#tests/helpers/sign-in.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';
import { type Receiver, startReceiver, type TakenPost } from '#tests/helpers/start-receiver.ts';
import { storeMadeFleet } from '#tests/helpers/store-made-fleet.ts';

const publicUrl = 'https://slipdrift.example';
const DAY_MS = 86_400_000;
let app: TestApp;
let admin: SignedInPerson;
let receiver: Receiver;
/** The clock of the test itself; the server's own sender looks by the machine's, and finds nothing due before tomorrow. */
let now = new Date(Date.now() + DAY_MS);
let ctx: Context;

beforeAll(async () => {
  app = await startApp({ publicUrl: null });
  admin = await signInAs(app, 'admin', { name: 'Ines Calder' });
  receiver = await startReceiver();
  ctx = { ...app.running.context, now: () => now };
  await storeMadeFleet({ ...ctx, now: () => new Date(now.getTime() - 3 * DAY_MS) }, 60);
});
afterAll(async () => {
  await receiver?.stop();
  await app?.stop();
});
afterEach(async () => {
  await app.client`delete from webhooks`;
  receiver.taken.length = 0;
  receiver.reply = () => ({ status: 204 });
});

const call = (method: string, path: string, body?: unknown) =>
  fetch(`${app.url}/api/webhooks${path}`, {
    method,
    headers: admin.headers,
    ...(body === undefined ? {} : { body: JSON.stringify(body) }),
  });
const make = async (more: Record<string, unknown> = {}) =>
  newWebhook.parse(await (await call('POST', '', { name: 'Yard', url: receiver.url, ...more })).json());
const later = (ms: number) => {
  now = new Date(now.getTime() + ms);
};
const send = (more: Partial<Context> = {}) =>
  sendDuePosts({ ...ctx, ...more }, { publicUrl, signal: new AbortController().signal });
const logOf = async ({ id }: Webhook) => webhookPosts.parse(await (await call('GET', `/${id}/posts`)).json());

/** Lets so many vehicles that were steady go on hold, all at once, as a ranking notes it. */
async function worsen(vehicles: number, from: string | null = 'steady', to = 'hold') {
  later(1);
  const rows = await app.client<{ key: number }[]>`
    select vehicle as key from assessments order by vehicle limit ${vehicles}`;
  const changes = rows.map(({ key }) => ({ vehicle: key, from, to, odometerKm: 120_000 }));
  await ctx.db.transaction(async (transaction) => {
    await storeGradeChanges(transaction, now, changes);
    await announceChanges(transaction, now, changes);
  });
}

/** By the example that the guide gives to whoever writes a receiver. */
async function verifyByGuide(post: TakenPost, secret: string): Promise<boolean> {
  const guide = readFileSync(new URL('../../docs/guide/webhooks.md', import.meta.url), 'utf8');
  const [example = ''] = /^ {4}import \{ createHash[\s\S]*?\n {4}\}$/m.exec(guide) ?? [];
  const clock = `const Date = { now: () => ${now.getTime()} };\n`;
  const module = await import(
    /* @vite-ignore */ `data:text/javascript,${encodeURIComponent(clock + example)}`
  );
  return module.isOurs(post, secret);
}

/** By a library that shares no code with ours. */
const verify = ({ method, url, headers }: TakenPost, secret: string) =>
  httpbis.verifyMessage(
    {
      keyLookup: async () => ({ algs: ['hmac-sha256'], verify: createVerifier(secret, 'hmac-sha256') }),
      notAfter: new Date(Math.max(now.getTime(), Date.now()) + 60_000),
      requiredFields: ['@method', '@target-uri', 'content-digest', 'content-type', 'slipdrift-event'],
    },
    { method, url, headers: headers as Record<string, string> },
  );

describe('a vehicle that worsens', () => {
  it('is told of by the ranking, once, to whom wants that grade, signed so that others can check it', async () => {
    const { webhook, secret } = await make({ grades: ['hold', 'book'] });
    await make({ name: 'Only watched', grades: ['watch'] });
    later(1000);
    const [held] = await app.client`
      update assessments set grade = 'steady' where vehicle = (select min(vehicle) from assessments where grade = 'hold')
      returning vehicle`;
    await rankFleet(ctx);
    await rankFleet(ctx);
    expect(await send()).toBe(1);
    expect(await send()).toBe(0);
    expect(receiver.taken).toHaveLength(1);
    const [post] = receiver.taken as [TakenPost];
    const [row] = await app.client`
      select unit, depot, platform, km_p50 from vehicles v join assessments a on a.vehicle = v.key where key = ${held?.vehicle}`;
    const body = JSON.parse(post.body);
    expect(body).toMatchObject({
      event: post.headers['slipdrift-event'],
      type: 'grade_worsened',
      vehicle: row?.unit,
      depot: row?.depot,
      platform: row?.platform,
      from: 'steady',
      to: 'hold',
      at: now.toISOString(),
      km_to_limit: { p50: row?.km_p50 === null ? null : Math.round(row?.km_p50) },
      horizon_km: 5000,
      link: `${publicUrl}/vehicles/${row?.unit}`,
    });
    expect(body.reasons.length).toBeGreaterThan(0);
    expect(await verify(post, secret)).toBe(true);
    expect(await verifyByGuide(post, secret)).toBe(true);
    expect(await verifyByGuide({ ...post, body: `${post.body} ` }, secret)).toBe(false);
    expect(await verifyByGuide(post, `${secret}x`)).toBe(false);
    expect(post.headers['content-digest']).toBe(
      `sha-256=:${createHash('sha256').update(post.body).digest('base64')}:`,
    );
    expect(await verify(post, `${secret}x`)).toBe(false);
    const other = { ...post, headers: { ...post.headers, 'slipdrift-event': crypto.randomUUID() } };
    expect(await verify(other, secret)).toBe(false);
    const { rows } = await logOf(webhook);
    expect(rows).toMatchObject([
      { id: body.event, state: 'given', tries: 1, last_status: 204, last_fault: null },
    ]);
  });

  it('is not told of where it got better, nor when a fleet is ranked for the first time', async () => {
    const { webhook } = await make();
    await worsen(3, 'hold', 'watch');
    await worsen(3, 'watch', 'unknown');
    expect((await logOf(webhook)).total).toBe(0);
    await worsen(2, null, 'watch');
    expect((await logOf(webhook)).total).toBe(2);

    const old = await app.client`delete from grade_changes returning *`;
    await worsen(60, null, 'hold');
    later(DAY_MS / 2);
    await worsen(60, 'steady', 'hold');
    expect((await logOf(webhook)).total).toBe(2);
    later(DAY_MS);
    await worsen(1, null, 'hold');
    expect((await logOf(webhook)).total).toBe(3);
    expect(old.length).toBeGreaterThan(0);
  });

  it('leaves nothing to send where the change itself is not kept', async () => {
    const { webhook } = await make();
    const change = { vehicle: 1, from: 'steady', to: 'hold', odometerKm: null };
    const broken = ctx.db.transaction(async (transaction) => {
      await announceChanges(transaction, now, [change]);
      throw new Error('the ranking failed');
    });
    await expect(broken).rejects.toThrow('the ranking failed');
    expect((await logOf(webhook)).total).toBe(0);
  });
});

describe('a receiver', () => {
  it('that answers 500 twice gets the same event three times, later each time, and never again', async () => {
    const { webhook } = await make();
    receiver.reply = (count) =>
      count < 3 ? { status: 500, text: `out\u0000 of order ${'x'.repeat(500)}` } : { status: 200 };
    await worsen(1);
    await send();
    const [first] = (await logOf(webhook)).rows;
    expect(first).toMatchObject({ state: 'waiting', tries: 1, last_status: 500 });
    expect(first?.last_fault).toMatch(/^It answered 500: out. of order x+$/);
    expect(first?.last_fault?.length).toBeLessThan(230);
    const waitS = (Date.parse(first?.next_at ?? '') - now.getTime()) / 1000;
    expect(waitS).toBeGreaterThanOrEqual(48);
    expect(waitS).toBeLessThanOrEqual(72);
    later(40_000);
    expect([await send(), receiver.taken.length]).toEqual([0, 1]);
    later(40_000);
    expect([await send(), receiver.taken.length]).toEqual([0, 2]);
    later(90_000);
    await send();
    expect(receiver.taken.length).toBe(2);
    later(60_000);
    expect([await send(), receiver.taken.length]).toEqual([1, 3]);
    later(DAY_MS);
    expect([await send(), receiver.taken.length]).toEqual([0, 3]);
    expect(new Set(receiver.taken.map(({ headers }) => headers['slipdrift-event'])).size).toBe(1);
    expect(new Set(receiver.taken.map(({ body }) => body)).size).toBe(1);
  });

  it('is given up where it says that it is gone, and after three days', async () => {
    const { webhook } = await make();
    receiver.reply = () => ({ status: 410 });
    await worsen(1);
    await send();
    expect((await logOf(webhook)).rows).toMatchObject([{ state: 'given_up', tries: 1, next_at: null }]);
    receiver.reply = () => ({ status: 503, headers: { 'retry-after': '7200' } });
    await worsen(1);
    await send();
    const [waiting] = (await logOf(webhook)).rows;
    expect(Date.parse(waiting?.next_at ?? '') - now.getTime()).toBe(7_200_000);
    later(3 * DAY_MS);
    await send();
    expect((await logOf(webhook)).rows[0]).toMatchObject({ state: 'given_up', tries: 2 });
  });

  it('that is ended while it is being told stays given up', async () => {
    const { webhook } = await make();
    await worsen(1);
    const post = await claimPost(ctx.db, { now, busy: [] });
    if (post === null) throw new Error('one is due');
    await call('DELETE', `/${webhook.id}`);
    await noteTry(ctx.db, post, { status: 503, fault: 'It answered 503', nextAt: now });
    expect((await logOf(webhook)).rows).toMatchObject([{ state: 'given_up', next_at: null }]);
  });

  it('that redirects or is not there is told apart, and not followed', async () => {
    const { webhook } = await make();
    receiver.reply = () => ({ status: 302, headers: { location: `${receiver.url}/elsewhere` } });
    await worsen(1);
    await send();
    expect(receiver.taken.length).toBe(1);
    expect((await logOf(webhook)).rows[0]?.last_fault).toBe('It answered 302; redirects are not followed');
    await call('PATCH', `/${webhook.id}`, { url: 'http://127.0.0.1:9/' });
    later(80_000);
    await send();
    expect((await logOf(webhook)).rows[0]).toMatchObject({ tries: 2, last_status: null });
    expect((await logOf(webhook)).rows[0]?.last_fault).toMatch(/Nothing listens|could not be reached/);
  });

  it('gets each event once though two programs send, and one that hangs keeps no other waiting', async () => {
    await make();
    const hanging = await startReceiver();
    hanging.reply = () => ({ status: 204, after: new Promise((settle) => setTimeout(settle, 1500)) });
    await make({ name: 'Hangs', url: hanging.url });
    await worsen(12);
    const second = openDatabase(app.databaseUrl, { connections: 3 });
    const begun = performance.now();
    const both = Promise.all([send(), send({ db: second.db })]);
    await expect.poll(() => receiver.taken.length, { timeout: 1400 }).toBe(12);
    expect(performance.now() - begun).toBeLessThan(1500);
    expect(new Set(receiver.taken.map(({ headers }) => headers['slipdrift-event'])).size).toBe(12);
    hanging.reply = () => ({ status: 204 });
    const [one, other] = await both;
    expect(one + other).toBe(24);
    expect(hanging.taken.length).toBe(12);
    await hanging.stop();
    await second.close();
  });

  it('gets an event again whose sender died midway, under the same id', async () => {
    const { webhook } = await make();
    await worsen(1);
    const claimed = await claimPost(ctx.db, { now, busy: [] });
    expect(await send()).toBe(0);
    later(61_000);
    expect(await send()).toBe(1);
    expect(receiver.taken[0]?.headers['slipdrift-event']).toBe(claimed?.id);
    expect((await logOf(webhook)).rows[0]).toMatchObject({ state: 'given', tries: 2 });
  });
});

describe('the calls', () => {
  it('show the secret once and nowhere else, and note who did what', async () => {
    const { webhook, secret } = await make();
    expect(Buffer.from(secret, 'base64url').length).toBe(32);
    expect(webhook).toMatchObject({ state: 'active', grades: ['hold', 'book', 'watch'] });
    expect(webhook.warning).toMatch(/https/);
    await call('PATCH', `/${webhook.id}`, { paused: true, name: 'Yard gate' });
    const ended = await (await call('DELETE', `/${webhook.id}`)).json();
    expect(ended).toMatchObject({ state: 'ended', name: 'Yard gate' });
    const noted = await app.client`
      select action, actor_name, before, after from changes where subject = 'webhook' and subject_id = ${String(webhook.id)}
      order by id`;
    expect(noted.map(({ action }) => action)).toEqual(['created', 'changed', 'ended']);
    expect(noted[1]).toMatchObject({
      actor_name: 'Ines Calder',
      before: { paused: false, name: 'Yard' },
      after: { paused: true, name: 'Yard gate' },
    });
    const everything = JSON.stringify([noted, await (await call('GET', '')).json()]);
    expect(everything).not.toContain(secret);
    expect(await app.client`select secret from webhooks where id = ${webhook.id}`).toEqual([{ secret: '' }]);
    expect((await call('PATCH', `/${webhook.id}`, { paused: false })).status).toBe(409);
  });

  it.each([
    [{ name: '', url: 'https://yard.example/' }, 'name'],
    [{ name: 'Yard', url: 'http://yard.example/' }, 'url'],
    [{ name: 'Yard', url: 'https://yard.example/', grades: [] }, 'grades'],
    [{ name: 'Yard', url: 'https://yard.example/', grades: ['steady'] }, 'grades.0'],
    [{ name: 'Yard', url: 'https://yard.example/', secret: 'mine' }, ''],
  ])('refuse %j and make nothing', async (input, field) => {
    const answer = await call('POST', '', input);
    expect(answer.status).toBe(400);
    expect((await answer.json()).errors[0].field).toBe(field);
    expect(await (await call('GET', '')).json()).toEqual([]);
  });

  it('hold back what comes while it is paused, and drop nothing of it', async () => {
    const { webhook } = await make();
    await call('PATCH', `/${webhook.id}`, { paused: true });
    await worsen(2);
    expect(await send()).toBe(0);
    expect(await (await call('GET', '')).json()).toMatchObject([{ state: 'paused', waiting: 2 }]);
    await call('PATCH', `/${webhook.id}`, { paused: false });
    expect(await send()).toBe(2);
  });

  it('send a trial at once, and an event again that was given up, but never one that was confirmed', async () => {
    const { webhook, secret } = await make();
    const trial = webhookPost.parse(await (await call('POST', `/${webhook.id}/trial`)).json());
    expect(trial).toMatchObject({ state: 'given', tries: 1, event: { type: 'trial' } });
    expect(await verify(receiver.taken[0] as TakenPost, secret)).toBe(true);
    expect((await call('POST', `/${webhook.id}/posts/${trial.id}/again`)).status).toBe(409);
    receiver.reply = () => ({ status: 410 });
    await worsen(1);
    await send();
    const [gone] = (await logOf(webhook)).rows;
    receiver.reply = () => ({ status: 200 });
    const again = webhookPost.parse(
      await (await call('POST', `/${webhook.id}/posts/${gone?.id}/again`)).json(),
    );
    expect(again).toMatchObject({ state: 'given', tries: 2 });
    expect((await call('POST', `/${webhook.id}/posts/${crypto.randomUUID()}/again`)).status).toBe(404);
    expect((await call('POST', '/2000000/trial')).status).toBe(404);
    receiver.reply = () => ({ status: 500 });
    const failed = webhookPost.parse(await (await call('POST', `/${webhook.id}/trial`)).json());
    expect(failed).toMatchObject({ state: 'given_up', last_status: 500 });
  });

  it('list what was told by pages, newest first', async () => {
    const { webhook } = await make();
    await worsen(5);
    await worsen(1, 'book', 'hold');
    const page = await listPosts(ctx, webhook.id, { limit: 2, offset: 0 });
    expect([page.total, page.rows.length, page.rows[0]?.event.from]).toEqual([6, 2, 'book']);
    const rest = await listPosts(ctx, webhook.id, { limit: 50, offset: 2 });
    expect(new Set([...page.rows, ...rest.rows].map(({ id }) => id)).size).toBe(6);
  });

  it('list no more what was settled over a year ago, and still what waits', async () => {
    const { webhook } = await make();
    await worsen(3);
    const [waits, old, young] = (await listPosts(ctx, webhook.id, { limit: 3, offset: 0 })).rows;
    await app.client`update webhook_posts set at = at - interval '400 days' where id <> ${young?.id ?? ''}`;
    await app.client`update webhook_posts set state = 'given' where id in ${app.client([old?.id ?? '', young?.id ?? ''])}`;
    await forgetPosts(ctx);
    const left = await listPosts(ctx, webhook.id, { limit: 3, offset: 0 });
    expect(left.rows.map(({ id }) => id)).toEqual([young?.id, waits?.id]);
  });
});

it('keeps secrets out of the log of a sender that fails', async () => {
  const said: string[] = [];
  const log = pino({ level: 'debug' }, { write: (line: string) => void said.push(line) });
  const { secret } = await make();
  receiver.reply = () => ({ status: 500 });
  await worsen(1);
  await send({ log });
  expect(said.join('')).toMatch(/webhook not given: It answered 500/);
  expect(said.join('')).not.toContain(secret);
});

it('is sent by a server that runs, by itself', async () => {
  const machine = { ...app.running.context };
  now = machine.now();
  await app.client`update grade_changes set at = at - interval '30 days'`;
  await make();
  await worsen(1);
  await expect.poll(() => receiver.taken.length, { timeout: 12_000 }).toBe(1);
});
