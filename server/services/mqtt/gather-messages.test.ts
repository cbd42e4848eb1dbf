import { expect, it } from 'vitest';
import { createGatherer, GATHER_MESSAGES } from './gather-messages.ts';
import type { Message } from './message.ts';

const acknowledged: string[] = [];
const message = (name: string, bytes = 10): Message => ({
  topic: name,
  payload: Buffer.alloc(bytes),
  acknowledge: () => void acknowledged.push(name),
});

it('stores what comes together as one, and acknowledges it then', async () => {
  const stored: number[] = [];
  acknowledged.length = 0;
  const gatherer = createGatherer(
    async (messages) => {
      expect(acknowledged).toEqual([]);
      stored.push(messages.length);
    },
    () => {},
  );
  for (const name of ['a', 'b', 'c']) await gatherer.add(message(name));
  await gatherer.finish();
  expect([stored, acknowledged]).toEqual([[3], ['a', 'b', 'c']]);
});

it('reads no more than it may hold while storage waits, and goes on when there is room', async () => {
  let release = () => {};
  const gate = new Promise<void>((settle) => {
    release = settle;
  });
  const sizes: number[] = [];
  const gatherer = createGatherer(
    async (messages) => {
      await gate;
      sizes.push(messages.length);
    },
    () => {},
  );
  let hadRoom = 0;
  const adding = (async () => {
    for (let i = 0; i < 6 * GATHER_MESSAGES; i += 1) {
      await gatherer.add(message(`${i}`));
      hadRoom += 1;
    }
  })();
  await new Promise((settle) => setTimeout(settle, 50));
  expect(hadRoom).toBeLessThan(5 * GATHER_MESSAGES);
  release();
  await adding;
  await gatherer.finish();
  expect(sizes.reduce((sum, n) => sum + n, 0)).toBe(6 * GATHER_MESSAGES);
  expect(Math.max(...sizes)).toBe(GATHER_MESSAGES);
});

it('tries the same again where storage declines, tells of it once, and acknowledges nothing before', async () => {
  acknowledged.length = 0;
  let tries = 0;
  let told = 0;
  const gatherer = createGatherer(
    async (messages) => {
      tries += 1;
      expect(messages.map(({ topic }) => topic)).toEqual(['a']);
      if (tries < 2) throw new Error('storage is away');
    },
    () => {
      told += 1;
    },
  );
  await gatherer.add(message('a'));
  await expect.poll(() => tries, { timeout: 3000 }).toBe(1);
  expect(acknowledged).toEqual([]);
  await expect.poll(() => acknowledged, { timeout: 5000 }).toEqual(['a']);
  expect([tries, told]).toEqual([2, 1]);
});

it('leaves to the broker what was not stored when its connection ended', async () => {
  acknowledged.length = 0;
  const gatherer = createGatherer(
    () => Promise.reject(new Error('storage is away')),
    () => {},
  );
  await gatherer.add(message('a'));
  gatherer.drop();
  await gatherer.add(message('b'));
  await gatherer.finish();
  expect(acknowledged).toEqual([]);
});
