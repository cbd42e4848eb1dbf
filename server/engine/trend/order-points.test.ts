import { expect, it } from 'vitest';
import { orderPoints } from './order-points.ts';
import { requirePoints } from './require-points.ts';

it('runs as its note says', () => {
  const { x, y } = orderPoints(requirePoints('f', { x: [1, 1, 0], y: [5, 4, 9] }));
  expect([...x]).toEqual([0, 1, 1]);
  expect([...y]).toEqual([9, 4, 5]);
});
