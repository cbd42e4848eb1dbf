import { expect, it } from 'vitest';
import { endWithin } from './end-within.ts';

it('waits for what ends, and no longer than asked for what does not', async () => {
  const ended: string[] = [];
  const quick = Promise.resolve().then(() => {
    ended.push('quick');
  });
  expect(await endWithin(60, [quick, undefined])).toBe(true);
  expect(ended).toEqual(['quick']);
  const startedMs = performance.now();
  expect(await endWithin(0.05, [quick, new Promise<void>(() => {})])).toBe(false);
  expect(performance.now() - startedMs).toBeLessThan(5000);
});

it('passes a failure on', async () => {
  await expect(endWithin(60, [Promise.reject(new Error('it broke'))])).rejects.toThrow('it broke');
});
