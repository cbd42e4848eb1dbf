import { expect, it } from 'vitest';
import { joinTries } from './join-tries.ts';

const counts = (received: number, stored: number, duplicate: number, refused: number) => ({
  received,
  stored,
  duplicate,
  conflicting: 0,
  refused,
});

it('counts a single try as it is', () => {
  expect(joinTries(null, counts(10, 7, 2, 1), true)).toEqual(counts(10, 7, 2, 1));
});

it('counts what an earlier try stored as stored', () => {
  // Of 10 lines the first try stored 4, found 1 there and refused 1; the second stored the other 4.
  expect(joinTries(counts(6, 4, 1, 1), counts(10, 4, 5, 1), true)).toEqual(counts(10, 8, 1, 1));
});

it('keeps what the earlier try said until the latest has come as far', () => {
  expect(joinTries(counts(6, 4, 1, 1), counts(3, 0, 2, 1), false)).toEqual(counts(6, 4, 1, 1));
});

it('counts another body by itself', () => {
  expect(joinTries(counts(6, 4, 1, 1), counts(3, 3, 0, 0), true)).toEqual(counts(3, 3, 0, 0));
});
