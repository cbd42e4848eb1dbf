import { expect, it } from 'vitest';
import { binOf } from './bin-of.ts';

it('runs as its note says', () => {
  expect(binOf(75, [60, 70, 80])).toBe(2);
});

it('puts a value on an edge above it, and all beyond the edges in the outer bins', () => {
  expect([59, 60, 79.9, 80, 200].map((value) => binOf(value, [60, 70, 80]))).toEqual([0, 1, 2, 3, 3]);
  expect(binOf(5, [])).toBe(0);
});
