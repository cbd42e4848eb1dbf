import { expect, it } from 'vitest';
import { tabulateLives } from './tabulate-lives.ts';

it('runs as its note says', () => {
  const { x, atRisk, events, censored } = tabulateLives([{ entry: 0, exit: 5, event: true, count: 3 }]);
  expect([x, atRisk, events, censored].map((column) => [...column])).toEqual([[5], [3], [3], [0]]);
});

it('counts those seen last at a failure to that failure, and those before the first to none', () => {
  const { censored, atRisk } = tabulateLives([
    { entry: 0, exit: 2, event: false, count: 1 },
    { entry: 0, exit: 5, event: true, count: 1 },
    { entry: 0, exit: 5, event: false, count: 2 },
    { entry: 4, exit: 6, event: false, count: 1 },
    { entry: 5, exit: 9, event: true, count: 1 },
  ]);
  expect([[...atRisk], [...censored]]).toEqual([
    [4, 1],
    [3, 0],
  ]);
});
