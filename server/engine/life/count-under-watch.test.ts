import { expect, it } from 'vitest';
import { countUnderWatch } from './count-under-watch.ts';

it('runs as its note says', () => {
  expect(countUnderWatch([{ entry: 2, exit: 5, event: false, count: 3 }], 400)).toEqual({
    steps: [
      { x: 2, n: 3 },
      { x: 5, n: 0 },
    ],
    runningAt: [5],
  });
});

it('goes up with late entries, and takes steps of one width where there are too many', () => {
  const lives = Array.from({ length: 50 }, (_, i) => ({
    entry: i,
    exit: 100 + i,
    event: i % 2 === 0,
    count: 1,
  }));
  expect(countUnderWatch(lives, 400).steps.slice(0, 2)).toEqual([
    { x: 0, n: 1 },
    { x: 1, n: 2 },
  ]);
  const { steps, runningAt } = countUnderWatch(lives, 5);
  expect(steps.map(({ x, n }) => [x, n])).toEqual([
    [0, 1],
    [37.25, 38],
    [74.5, 50],
    [111.75, 38],
    [149, 0],
  ]);
  expect(runningAt).toEqual([101, 111, 121, 131, 141]);
});

it('has nothing of no lives, and refuses to tell nothing', () => {
  expect(countUnderWatch([], 400)).toEqual({ steps: [], runningAt: [] });
  expect(() => countUnderWatch([], 1)).toThrow('countUnderWatch requires');
});
