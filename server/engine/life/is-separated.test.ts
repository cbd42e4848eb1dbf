import { expect, it } from 'vitest';
import { isSeparated } from './is-separated.ts';
import { arrangeRiskSets } from './partial-likelihood.ts';

const failed = (exit: number, entry = 0) => ({ entry, exit, event: true, count: 1 });
const ran = (exit: number, entry = 0) => ({ entry, exit, event: false, count: 1 });
const tell = (lives: ReturnType<typeof failed>[], score: number[]) =>
  isSeparated(arrangeRiskSets(lives, new Float64Array(lives.length)), new Float64Array(score), 0);

it('runs as its note says', () => {
  expect(tell([failed(1), ran(2)], [1, 0])).toBe(true);
});

it('needs every failure above all that were at risk with it, and one clearly', () => {
  expect(tell([failed(1), failed(3), ran(2), ran(9)], [3, 2, 1, 1])).toBe(true);
  expect(tell([failed(1), failed(3), ran(2), ran(9)], [2, 3, 1, 1])).toBe(false);
  expect(tell([failed(1), ran(9)], [1, 1])).toBe(false);
});

it('does not look at lives that were not under watch then', () => {
  expect(tell([failed(1), ran(2), ran(9, 5)], [1, 0, 7])).toBe(true);
  expect(tell([failed(6), ran(8), ran(3)], [1, 0, 7])).toBe(true);
  expect(tell([], [])).toBe(false);
});
