import { execFileSync, spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { removeStorage } from '#db/embedded/remove-storage.ts';
import { runSlipdrift, type Served, serveSlipdrift } from '#tests/helpers/run-slipdrift.ts';
import { makeTemporaryFolder } from '#tests/helpers/temporary-folder.ts';
import { withTestKey } from '#tests/helpers/test-key.ts';

let folder: string;
let settings: Record<string, string>;
beforeEach(() => {
  folder = makeTemporaryFolder();
  settings = { SLIPDRIFT_DATA: folder };
});
afterEach(() => removeStorage(folder));

const reading = {
  vehicle: 'B-1',
  at: '2026-03-04T05:06:07Z',
  odometer_km: 1000,
  slip_rpm: 12,
  duty_pct: 85,
  fluid_c: 85,
};

async function deliver({ url }: Served, at: string): Promise<{ stored: number; duplicate: number }> {
  const response = await fetch(`${url}/api/readings`, {
    method: 'POST',
    headers: { ...withTestKey, 'content-type': 'application/json' },
    body: JSON.stringify([{ ...reading, at }]),
  });
  expect(response.status).toBe(200);
  return (await response.json()) as { stored: number; duplicate: number };
}

const processes = (): { pid: number; args: string }[] =>
  execFileSync('ps', ['-eo', 'pid=,args='], { encoding: 'utf8' })
    .trim()
    .split('\n')
    .map((line) => ({ pid: Number.parseInt(line, 10), args: line }))
    .filter(({ args }) => !args.includes('<defunct>'));
const watchers = () =>
  processes().filter(
    ({ args }) => args.includes('cat >/dev/null') && args.includes(join(folder, 'postgres')),
  );

it('keeps what was committed when the program is killed, and leaves no server behind', async () => {
  const first = await serveSlipdrift(settings);
  expect(await deliver(first, '2026-03-04T05:06:07Z')).toMatchObject({ stored: 1 });
  expect(await first.kill('SIGKILL')).toBe('SIGKILL');
  const second = await serveSlipdrift(settings);
  expect(await deliver(second, '2026-03-04T05:06:07Z')).toMatchObject({ stored: 0, duplicate: 1 });
  expect(await second.kill('SIGTERM')).toBe(0);
  expect(existsSync(join(folder, 'postgres/postmaster.pid'))).toBe(false);
});

it('takes over when program and watcher were both killed and the server lives on', async () => {
  const first = await serveSlipdrift(settings);
  await deliver(first, '2026-03-04T05:06:07Z');
  const left = Number.parseInt(readFileSync(join(folder, 'postgres/postmaster.pid'), 'utf8'), 10);
  expect(watchers()).toHaveLength(1);
  for (const { pid } of watchers()) process.kill(pid, 'SIGKILL');
  await first.kill('SIGKILL');
  expect(processes().map(({ pid }) => pid)).toContain(left);
  const second = await serveSlipdrift(settings);
  await expect.poll(() => processes().map(({ pid }) => pid)).not.toContain(left);
  expect(await deliver(second, '2026-03-04T05:06:07Z')).toMatchObject({ duplicate: 1 });
  expect(await second.kill('SIGTERM')).toBe(0);
});

it('recovers when server and program were killed together, and the number in the lock file is now another process', async () => {
  const first = await serveSlipdrift(settings);
  await deliver(first, '2026-03-04T05:06:07Z');
  const lock = join(folder, 'postgres/postmaster.pid');
  const server = Number.parseInt(readFileSync(lock, 'utf8'), 10);
  for (const { pid } of watchers()) process.kill(pid, 'SIGKILL');
  process.kill(server, 'SIGKILL');
  await first.kill('SIGKILL');
  writeFileSync(lock, readFileSync(lock, 'utf8').replace(String(server), String(process.pid)));
  const second = await serveSlipdrift(settings);
  expect(await deliver(second, '2026-03-04T05:06:07Z')).toMatchObject({ duplicate: 1 });
  expect(await second.kill('SIGTERM')).toBe(0);
});

it('recovers when the killed server has not been buried: its number still stands for a process', async () => {
  const first = await serveSlipdrift(settings);
  await deliver(first, '2026-03-04T05:06:07Z');
  const lock = join(folder, 'postgres/postmaster.pid');
  const socketLock = join(folder, 'socket/.s.PGSQL.5432.lock');
  const server = readFileSync(lock, 'utf8').split('\n')[0] ?? '';
  for (const { pid } of watchers()) process.kill(pid, 'SIGKILL');
  process.kill(Number(server), 'SIGKILL');
  await first.kill('SIGKILL');
  // `sleep` takes the place of the shell and never asks how its child ended.
  const parent = spawn('/bin/sh', ['-c', 'true & echo $!; exec sleep 60'], {
    stdio: ['ignore', 'pipe', 'ignore'],
  });
  const [said] = await once(parent.stdout, 'data');
  const unburied = String(said).trim();
  try {
    for (const file of [lock, socketLock])
      writeFileSync(file, readFileSync(file, 'utf8').replace(server, unburied));
    const second = await serveSlipdrift(settings);
    expect(await deliver(second, '2026-03-04T05:06:07Z')).toMatchObject({ duplicate: 1 });
    expect(await second.kill('SIGTERM')).toBe(0);
  } finally {
    parent.kill('SIGKILL');
  }
});

it('says so when the data folder is in use, and leaves its user alone', async () => {
  const first = await serveSlipdrift(settings);
  const second = runSlipdrift(['serve'], { ...settings, PORT: '0' });
  expect(await second.ended).toBe(1);
  expect(second.output()).toContain(`in use by another Slipdrift (process ${first.child.pid})`);
  expect(await deliver(first, '2026-03-04T05:06:07Z')).toMatchObject({ stored: 1 });
  expect(await first.kill('SIGTERM')).toBe(0);
});

it('starts once when two start on an empty folder at the same moment', async () => {
  const both = [
    runSlipdrift(['serve'], { ...settings, PORT: '0' }),
    runSlipdrift(['serve'], { ...settings, PORT: '0' }),
  ];
  const loser = await Promise.race(both.map(async (one) => ({ one, code: await one.ended })));
  expect(loser.code).toBe(1);
  expect(loser.one.output()).toContain('in use by another Slipdrift');
  const winner = both.find((one) => one !== loser.one);
  await expect.poll(() => winner?.output(), { timeout: 20_000 }).toContain('"listening"');
  expect(await winner?.kill('SIGTERM')).toBe(0);
});

it('says so when the port is in use, and stops its server again', async () => {
  const other = createServer().listen(0, '127.0.0.1');
  await new Promise((settle) => other.once('listening', settle));
  const { port } = other.address() as AddressInfo;
  const program = runSlipdrift(['serve', '--port', String(port)], settings);
  expect(await program.ended).toBe(1);
  expect(program.output()).toContain(`Port ${port} on 127.0.0.1 is in use by another program`);
  expect(existsSync(join(folder, 'postgres/postmaster.pid'))).toBe(false);
  other.close();
});

it('declines data of another PostgreSQL, unchanged, with what to do', async () => {
  const first = await serveSlipdrift(settings);
  await first.kill('SIGTERM');
  writeFileSync(join(folder, 'postgres/PG_VERSION'), '17\n');
  const second = runSlipdrift(['serve'], { ...settings, PORT: '0' });
  expect(await second.ended).toBe(1);
  expect(second.output()).toMatch(
    /written by PostgreSQL 17, .*Nothing was changed\. .*slipdrift backup FILE/,
  );
});

it('ends with a failure, for a supervisor to see, when its server is killed', async () => {
  const program = await serveSlipdrift(settings);
  const server = Number.parseInt(readFileSync(join(folder, 'postgres/postmaster.pid'), 'utf8'), 10);
  process.kill(server, 'SIGKILL');
  expect(await program.ended).toBe(1);
  expect(program.output()).toContain('PostgreSQL went away');
});
