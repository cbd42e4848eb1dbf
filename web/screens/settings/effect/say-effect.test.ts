import { expect, it } from 'vitest';
import type { Preview } from '#server/contract/settings.ts';
import { sayEffect, sayMove } from './say-effect.ts';

const counts = { hold: 0, book: 0, watch: 0, steady: 0, unknown: 0 };
const say = (vehicles: number, regraded: number, reranked: number) =>
  sayEffect({ vehicles, regraded, reranked, before: counts, after: counts, moved: [] } satisfies Preview);

it('says how many change grade and place', () => {
  expect(say(240, 5, 31)).toBe('5 vehicles change their grade, 31 vehicles change their place.');
  expect(say(240, 1, 0)).toBe('1 vehicle changes its grade; no place would change.');
  expect(say(240, 0, 1)).toBe('No grade would change; 1 vehicle changes its place.');
  expect(say(240, 0, 0)).toBe('Nothing in the list would change.');
  expect(say(0, 0, 0)).toBe('No vehicle is in the list yet.');
});

it('shows a count that moves with where it came from', () => {
  expect([sayMove(4, 6), sayMove(1200, 1200)]).toEqual(['4 → 6', '1,200']);
});
