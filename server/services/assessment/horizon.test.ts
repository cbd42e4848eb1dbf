import { expect, it } from 'vitest';
import { chanceAt } from './horizon.ts';

const chances: [number, number][] = [
  [1_000, 0.1],
  [5_000, 0.5],
  [10_000, 0.6],
];

it('gives the stored chances where they are stored', () => {
  expect(chances.map(([km]) => chanceAt(chances, km))).toEqual([0.1, 0.5, 0.6]);
});

it('goes straight between them, and from 0 at no way ahead', () => {
  expect(chanceAt(chances, 0)).toBe(0);
  expect(chanceAt(chances, 500)).toBeCloseTo(0.05, 12);
  expect(chanceAt(chances, 3_000)).toBeCloseTo(0.3, 12);
});

it('stays beyond the last, and is 0 where none are stored', () => {
  expect(chanceAt(chances, 1e9)).toBe(0.6);
  expect(chanceAt([], 5_000)).toBe(0);
});
