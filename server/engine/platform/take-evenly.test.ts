import { expect, it } from 'vitest';
import { takeEvenly } from './take-evenly.ts';

it('runs as its note says', () => {
  expect(takeEvenly([1, 2, 3, 4, 5, 6], 3)).toEqual([1, 3, 5]);
});

it('leaves a short list alone', () => {
  expect(takeEvenly([1, 2], 2)).toEqual([1, 2]);
  expect(takeEvenly([], 3)).toEqual([]);
});

it('takes each once, over the whole length', () => {
  const taken = takeEvenly(
    Array.from({ length: 1_001 }, (_, i) => i),
    400,
  );
  expect(new Set(taken).size).toBe(400);
  expect(taken.at(-1)).toBeGreaterThan(990);
});
