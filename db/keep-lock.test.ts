import { afterAll, beforeAll, expect, it } from 'vitest';
import { createTestDatabase, type TestDatabase } from '#tests/helpers/database.ts';
import { keepLock } from './keep-lock.ts';

let database: TestDatabase;
beforeAll(async () => {
  database = await createTestDatabase();
});
afterAll(() => database?.drop());

const waiting = { timeout: 20_000, interval: 20 };

it('lets one work at a time, and another take over where the first loses its connection or stops', {
  timeout: 40_000,
}, async () => {
  const working: string[] = [];
  const ended: string[] = [];
  const faults: unknown[] = [];
  const start = (name: string) => {
    const stop = new AbortController();
    const work = async (signal: AbortSignal) => {
      working.push(name);
      await new Promise<void>((settle) => {
        signal.addEventListener('abort', () => settle());
      });
      ended.push(name);
    };
    const running = keepLock(database.db, 42, stop.signal, work, (error) => faults.push(error));
    return async () => {
      stop.abort();
      await running;
    };
  };
  const stopFirst = start('first');
  await expect.poll(() => working, waiting).toEqual(['first']);
  const stopSecond = start('second');
  await database.client`
    select pg_terminate_backend(pid) from pg_locks where locktype = 'advisory' and objid = 42 and granted`;
  await expect.poll(() => working.length, waiting).toBe(2);
  await expect.poll(() => ended, waiting).toEqual(['first']);
  await expect.poll(() => faults.length, waiting).toBe(1);
  await (working[1] === 'first' ? stopFirst : stopSecond)();
  await expect.poll(() => working.length, waiting).toBe(3);
  expect(new Set(working)).toEqual(new Set(['first', 'second']));
  await Promise.all([stopFirst(), stopSecond()]);
  expect(ended).toHaveLength(3);
});
