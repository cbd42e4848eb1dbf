import { expect, it } from 'vitest';
import { sumTies } from './sum-ties.ts';

it('runs as its note says', () => {
  expect(sumTies([1, 1, 2])).toEqual({ first: 2, second: 0, third: 18 });
});

it('is 0 without ties', () => {
  expect(sumTies([3, 1, 2])).toEqual({ first: 0, second: 0, third: 0 });
});
