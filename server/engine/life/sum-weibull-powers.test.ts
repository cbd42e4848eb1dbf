import { expect, it } from 'vitest';
import { sumWeibullPowers, takeLogsOfLives } from './sum-weibull-powers.ts';

const lives = [
  { entry: 0, exit: 2, event: true, count: 3 },
  { entry: 1, exit: 4, event: false, count: 2 },
];

it('run as their notes say', () => {
  const columns = takeLogsOfLives([{ entry: 0, exit: 5, event: true, count: 2 }]);
  expect(columns.meanLogFailure).toBe(0);
  expect(sumWeibullPowers(columns, 3)).toEqual({ a: 2, mean: 0, variance: 0 });
});

// By hand, shape 2, largest exit 4: A = 3 / 4 + 2 (1 - 1 / 16) = 2.625; A' = 3 / 4 log(1 / 2) - 2 / 16 log(1 / 4).
it('sum powers of exits less those of entries', () => {
  const { a, mean } = sumWeibullPowers(takeLogsOfLives(lives), 2);
  expect(a).toBeCloseTo(2.625, 14);
  expect(mean).toBeCloseTo((0.75 * Math.log(0.5) - 0.125 * Math.log(0.25)) / 2.625, 14);
});
