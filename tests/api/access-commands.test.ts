import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { createTestDatabase, type TestDatabase } from '#tests/helpers/database.ts';
import { runSlipdrift, type Served, serveSlipdrift } from '#tests/helpers/run-slipdrift.ts';

let database: TestDatabase;
let served: Served;
beforeAll(async () => {
  database = await createTestDatabase();
  served = await serveSlipdrift({ DATABASE_URL: database.url });
});
afterAll(async () => {
  await served?.kill('SIGTERM');
  await database?.drop();
});

async function run(...args: string[]) {
  const program = runSlipdrift(args, { DATABASE_URL: database.url });
  let out = '';
  program.child.stdout?.on('data', (text: string) => {
    out += text;
  });
  const code = await program.ended;
  return { code, out: out.trim(), said: program.output() };
}
const ask = (path: string, key: string, init: RequestInit = {}) =>
  fetch(served.url + path, {
    ...init,
    headers: { authorization: `Bearer ${key}`, 'content-type': 'application/json' },
  });

describe('slipdrift serve', () => {
  it('tells the address for the first account once, and keeps it out of the log', async () => {
    await expect.poll(() => served.output(), { timeout: 10_000 }).toMatch(/\/welcome#[\w-]{32}/);
    const token = /\/welcome#([\w-]{32})/.exec(served.output())?.[1] ?? '';
    const looked = await fetch(`${served.url}/api/one-time`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ token }),
    });
    expect(await looked.json()).toMatchObject({ purpose: 'first_admin' });
    const readLog = () =>
      served
        .output()
        .split('\n')
        .filter((line) => line.startsWith('{'))
        .join('\n');
    await expect.poll(readLog).toContain('"path":"/api/one-time"');
    expect(readLog()).not.toContain(token);
  });
});

describe('slipdrift keys', () => {
  it('makes a key that may deliver and nothing else, lists and revokes it', async () => {
    expect((await run('keys')).said).toContain('There are no keys yet');
    const added = await run('keys', 'add', 'Gate of the north');
    expect(added.code).toBe(0);
    expect(added.out).toMatch(/^slipdrift_[0-9a-f]{12}_[\w-]{43}$/);
    const body = '[]';
    expect((await ask('/api/readings', added.out, { method: 'POST', body })).status).not.toBe(401);
    expect((await ask('/api/ranking', added.out)).status).toBe(403);
    const listed = await run('keys', 'list');
    const id = added.out.split('_')[1] ?? '';
    expect(listed.said).toMatch(new RegExp(`${id}  Gate of the north  deliver  active  never`));
    expect(listed.said).not.toContain(added.out);
    expect((await run('keys', 'revoke', id)).said).toContain("'Gate of the north' is revoked");
    expect((await ask('/api/readings', added.out, { method: 'POST', body })).status).toBe(401);
    expect((await run('keys', 'revoke', 'none')).code).toBe(1);
    expect((await run('keys', 'add', 'x', '--may', 'rule')).code).toBe(2);
    expect((await run('keys', 'add', 'x', '--days', '-1')).code).toBe(2);
    const noted =
      await database.client`select actor_kind, actor_name, action from changes where subject = 'key' order by id`;
    expect(noted).toEqual([
      { actor_kind: 'program', actor_name: 'command line', action: 'created' },
      { actor_kind: 'program', actor_name: 'command line', action: 'revoked' },
    ]);
  });

  it('makes keys that run out, read, or write', async () => {
    const reads = await run('keys', 'add', 'Reads', '--may', 'read', '--days', '2');
    expect((await ask('/api/ranking', reads.out)).status).toBe(200);
    expect((await ask('/api/assess', reads.out, { method: 'POST' })).status).toBe(403);
    const [row] = await database.client`
      select round(extract(epoch from expires_at - now()) / 86400) as days from access_keys where name = 'Reads'`;
    expect(Number(row?.days)).toBe(2);
    const writes = await run('keys', 'add', 'Writes', '--may', 'write');
    expect((await ask('/api/assess', writes.out, { method: 'POST' })).status).toBe(200);
    expect((await ask('/api/people', writes.out)).status).toBe(403);
  });

  it('holds a key to its rate and to the size of its deliveries', async () => {
    const few = await run(
      'keys',
      'add',
      'Few',
      '--may',
      'deliver',
      '--per-minute',
      '3',
      '--max-body-mib',
      '1',
    );
    const statuses: number[] = [];
    for (let i = 0; i < 4; i += 1) {
      const answer = await ask('/api/readings', few.out, {
        method: 'POST',
        body: `[${' '.repeat(1_100_000)}]`,
      });
      statuses.push(answer.status);
      if (answer.status === 429) expect(Number(answer.headers.get('retry-after'))).toBeGreaterThan(0);
      await answer.body?.cancel();
    }
    expect(statuses).toEqual([413, 413, 413, 429]);
  });
});

describe('slipdrift people', () => {
  it('invites, lists, and lets a locked-out admin in again', async () => {
    const invited = await run(
      'people',
      'invite',
      'Mara@Fleet.example',
      '--name',
      'Mara Voss',
      '--role',
      'admin',
    );
    expect(invited.code).toBe(0);
    expect(invited.out).toMatch(/^http:\/\/127\.0\.0\.1:\d+\/welcome#[\w-]{32}$/);
    expect((await run('people')).said).toMatch(
      /mara@fleet\.example {2}Mara Voss {2}admin {2}all {5}invited {2}never/,
    );
    await database.client`insert into sign_in_attempts values ('mara@fleet.example', 11, now() + interval '10 minutes', now())`;
    expect((await run('people')).said).toContain('locked');
    const again = await run('people', 'reset', 'mara@fleet.example');
    const token = new URL(again.out).hash.slice(1);
    const set = await fetch(`${served.url}/api/one-time/password`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ token, password: 'a password of the tests' }),
    });
    expect(await set.json()).toMatchObject({ person: { email: 'mara@fleet.example', role: 'admin' } });
    expect((await run('people', 'reset', 'nobody@fleet.example')).code).toBe(1);
    expect((await run('people', 'invite', 'no address')).code).toBe(1);
    expect((await run('people', 'invite', 'x@fleet.example', '--depot', 'nowhere')).code).toBe(1);
  });
});
