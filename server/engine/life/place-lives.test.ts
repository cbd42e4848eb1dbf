import { expect, it } from 'vitest';
import { placeLives } from './place-lives.ts';

it('runs as its note says', () => {
  const { x, from, to } = placeLives([{ entry: 0, exit: 5, event: true, count: 1 }]);
  expect([[...x], [...from], [...to]]).toEqual([[5], [0], [1]]);
});

it('has a life that enters at a failure not at risk there, and one that leaves there at risk', () => {
  const { x, from, to } = placeLives([
    { entry: 5, exit: 8, event: true, count: 1 },
    { entry: 0, exit: 5, event: true, count: 1 },
    { entry: 1, exit: 5, event: false, count: 1 },
    { entry: 5, exit: 7, event: false, count: 1 },
  ]);
  expect([[...x], [...from], [...to]]).toEqual([
    [5, 8],
    [1, 0, 0, 1],
    [2, 1, 1, 1],
  ]);
});
