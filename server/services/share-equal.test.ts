import { expect, it } from 'vitest';
import { createShare } from './share-equal.ts';

/** Work that ends when it is told to, and answers how often it had begun. */
function work() {
  const ends: (() => void)[] = [];
  let begun = 0;
  const run = async () => {
    begun += 1;
    const mine = begun;
    await new Promise<void>((settle) => ends.push(settle));
    return mine;
  };
  return { run, endNext: () => ends.shift()?.(), begun: () => begun };
}

it('gives each who asks a run that began after they asked, and one run to all who wait', async () => {
  const share = createShare();
  const { run, endNext, begun } = work();
  const first = share('a', run);
  const others = [share('a', run), share('a', run), share('a', run)];
  expect(begun()).toBe(1);
  endNext();
  expect(await first).toBe(1);
  await Promise.resolve();
  const late = share('a', run);
  endNext();
  expect(await Promise.all(others)).toEqual([2, 2, 2]);
  await Promise.resolve();
  endNext();
  expect(await late).toBe(3);
});

it('begins at once where nobody asks for the same, and anew where nobody asks any more', async () => {
  const share = createShare();
  const { run, endNext, begun } = work();
  const both = [share('a', run), share('b', run)];
  expect(begun()).toBe(2);
  endNext();
  endNext();
  await Promise.all(both);
  await Promise.resolve();
  const again = share('a', run);
  expect(begun()).toBe(3);
  endNext();
  expect(await again).toBe(3);
});

it('tells a fault to those who asked for that run, and runs again for those who wait', async () => {
  const share = createShare();
  let begun = 0;
  const run = async () => {
    begun += 1;
    if (begun === 1) throw new Error('broke off');
    return begun;
  };
  const first = share('a', run);
  const second = share('a', run);
  await expect(first).rejects.toThrow('broke off');
  expect(await second).toBe(2);
});
