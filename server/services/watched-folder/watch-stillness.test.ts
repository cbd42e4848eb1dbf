import { expect, it } from 'vitest';
import { createStillness } from './watch-stillness.ts';

it('takes a file for whole once neither size nor time has changed for a while', () => {
  let nowMs = 1000;
  const still = createStillness(5000, () => nowMs);
  const file = (bytes: number, modifiedMs = 1) => ({ path: 'a', name: 'a', folder: null, bytes, modifiedMs });
  const isStill = (afterMs: number, ...one: [number, number?]) => {
    nowMs += afterMs;
    return still([file(...one)]).length === 1;
  };
  expect([isStill(0, 10), isStill(4999, 10), isStill(1, 10)]).toEqual([false, false, true]);
  expect([isStill(0, 20), isStill(4999, 20), isStill(1, 20, 2), isStill(5000, 20, 2)]).toEqual([
    false,
    false,
    false,
    true,
  ]);
  expect([isStill(0, 0, 2), isStill(59_999, 0, 2), isStill(1, 0, 2)]).toEqual([false, false, true]);
});
