import { afterAll, beforeAll, expect, it } from 'vitest';
import { toCookieHeader } from '#server/services/people/sign-in-library.ts';
import { createPlainPostgres, type PlainPostgres } from '#tests/helpers/faults/plain-postgres.ts';
import { type Served, serveSlipdrift } from '#tests/helpers/run-slipdrift.ts';

let database: PlainPostgres;
let program: Served;
beforeAll(async () => {
  database = await createPlainPostgres();
  await database.start();
  program = await serveSlipdrift({ DATABASE_URL: database.url });
});
afterAll(async () => {
  await program?.kill('SIGTERM');
  await database?.remove();
});

const person = { name: 'Ada', email: 'ada@tests.example', password: 'a password of the tests' };

/** At the address that the start of the program names. */
async function makeFirstAccount(): Promise<string> {
  await expect.poll(() => program.output(), { timeout: 20_000 }).toMatch(/\/welcome#[\w-]{32}/);
  const token = /\/welcome#([\w-]{32})/.exec(program.output())?.[1];
  const made = await fetch(`${program.url}/api/one-time/password`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ token, ...person }),
  });
  expect(made.status).toBe(200);
  return toCookieHeader(made.headers.getSetCookie());
}

it('tells people that storage is away, signs nobody out for it, and goes on when it is back', async () => {
  const cookie = await makeFirstAccount();
  const headers = { cookie, origin: program.url, 'content-type': 'application/json' };
  const { email, password } = person;
  const calls: [string, RequestInit][] = [
    ['/api/ranking', { headers }],
    ['/api/session', { headers }],
    ['/api/sessions', { headers }],
    ['/api/session', { method: 'DELETE', headers }],
    ['/api/session', { method: 'POST', headers, body: JSON.stringify({ email, password }) }],
  ];
  await database.end('immediate');
  for (const [path, init] of calls) {
    const answer = await fetch(program.url + path, init);
    const label = `${init.method ?? 'GET'} ${path}`;
    expect(answer.status, label).toBe(503);
    expect(Number(answer.headers.get('retry-after')), label).toBeGreaterThan(0);
    expect(answer.headers.getSetCookie(), label).toEqual([]);
    expect(await answer.json(), label).toMatchObject({ code: 'storage_unavailable' });
  }
  await database.start();
  await expect
    .poll(async () => (await fetch(`${program.url}/api/ranking`, { headers })).status, { timeout: 20_000 })
    .toBe(200);
});
