import { expect, it } from 'vitest';
import { requireLives } from './require-lives.ts';

const life = { entry: 0, exit: 5, event: true, count: 2 };

it('runs as its note says', () => {
  expect(requireLives('fitWeibull', [life])).toEqual({ n: 2, events: 2 });
});

it.each([
  { entry: 5 },
  { entry: -1 },
  { exit: Number.NaN },
  { exit: Number.POSITIVE_INFINITY },
  { count: 0 },
])('refuses %j', (change) => {
  expect(() => requireLives('fitWeibull', [{ ...life, ...change }])).toThrow('fitWeibull requires');
});
