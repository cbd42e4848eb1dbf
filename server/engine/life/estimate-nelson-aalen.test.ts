import { expect, it } from 'vitest';
import { estimateNelsonAalen } from './estimate-nelson-aalen.ts';

it('runs as its note says', () => {
  const lives = [
    { entry: 0, exit: 5, event: true, count: 1 },
    { entry: 0, exit: 6, event: false, count: 1 },
  ];
  expect(estimateNelsonAalen(lives)).toEqual([{ x: 5, cumulativeHazard: 0.5, se: 0.5 }]);
});
