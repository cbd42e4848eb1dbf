import { setTimeout as sleep } from 'node:timers/promises';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { problem } from '#server/contract/problems.ts';
import { makeReading } from '#tests/helpers/make-reading.ts';
import { type SignedInPerson, signInAs } from '#tests/helpers/sign-in.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';

let app: TestApp;
let admin: SignedInPerson;
beforeAll(async () => {
  app = await startApp();
  admin = await signInAs(app, 'admin');
});
afterAll(() => app?.stop());

const countReadings = async () =>
  Number((await app.client`select count(*) as n from readings join vehicles v on v.key = vehicle`)[0]?.n);

/** Delivers so many lines, does what ends the access, and goes on with some more. */
async function deliverAround(headers: Record<string, string>, before: number, end: () => Promise<unknown>) {
  const lines = (unit: string, n: number) =>
    Array.from({ length: n }, (_, i) => {
      const at = new Date(Date.UTC(2026, 2, 4) + i * 1000).toISOString();
      return `${JSON.stringify(makeReading({ vehicle: unit, at }))}\n`;
    }).join('');
  const encoder = new TextEncoder();
  const body = new ReadableStream<Uint8Array>({
    async start(controller) {
      controller.enqueue(encoder.encode(lines('E-1', before)));
      await sleep(600);
      await end();
      await sleep(600);
      controller.enqueue(encoder.encode(lines('E-2', 10)));
      controller.close();
    },
  });
  return fetch(`${app.url}/api/readings`, {
    method: 'POST',
    headers: { ...headers, 'content-type': 'application/x-ndjson' },
    body,
    duplex: 'half',
  } as RequestInit & { duplex: 'half' });
}

const makeKey = async (expires_at: string | null) => {
  const made = await fetch(`${app.url}/api/keys`, {
    method: 'POST',
    headers: admin.headers,
    body: JSON.stringify({ name: 'gate', right: 'deliver', expires_at }),
  });
  const { key, secret } = await made.json();
  return { id: key.id as string, headers: { authorization: `Bearer ${secret}` } };
};

describe('a delivery whose access ends before it does', () => {
  it('by a revoked key stores nothing more, and says what is kept', async () => {
    const { id, headers } = await makeKey(null);
    const revoke = () => fetch(`${app.url}/api/keys/${id}`, { method: 'DELETE', headers: admin.headers });
    const answer = await deliverAround(headers, 5000, revoke);
    expect(answer.status).toBe(401);
    expect(problem.parse(await answer.json()).detail).toMatch(
      /^The key 'gate' was revoked\. Of this body 5000 lines were kept before .* with access that works/,
    );
    expect(await countReadings()).toBe(5000);
  });

  it('by a key that runs out stores nothing', async () => {
    const { headers } = await makeKey(new Date(Date.now() + 500).toISOString());
    const before = await countReadings();
    const answer = await deliverAround(headers, 3, async () => {});
    expect([answer.status, await countReadings()]).toEqual([401, before]);
  });

  it('by a closed account, or another role, stores nothing', async () => {
    const before = await countReadings();
    for (const [change, status] of [
      [{ role: 'analyst' }, 403],
      [{ closed: true }, 401],
    ] as const) {
      const planner = await signInAs(app, 'planner');
      const [row] = await app.client`select id from people where email = ${planner.email}`;
      const end = () =>
        fetch(`${app.url}/api/people/${row?.id}`, {
          method: 'PATCH',
          headers: admin.headers,
          body: JSON.stringify(change),
        });
      const answer = await deliverAround(planner.headers, 3, end);
      expect([answer.status, await countReadings()]).toEqual([status, before]);
    }
  });
});
