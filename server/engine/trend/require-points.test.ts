import { expect, it } from 'vitest';
import { requirePoints } from './require-points.ts';

it('sorts by x and leaves points of weight 0 out', () => {
  const sorted = requirePoints('f', { x: [3, 1, 2, 1], y: [30, 10, 20, 11], weight: [1, 2, 0, 3] });
  expect([...sorted.x]).toEqual([1, 1, 3]);
  expect([...sorted.y]).toEqual([10, 11, 30]);
  expect([...sorted.w]).toEqual([2, 3, 1]);
  expect(sorted).toMatchObject({ n: 3, distinct: 2 });
});

it('runs as its note says', () => {
  expect([...requirePoints('fitOls', { x: [2, 1], y: [5, 4] }).y]).toEqual([4, 5]);
});

it('names the caller whose points cannot be worked with', () => {
  expect(() => requirePoints('fitOls', { x: [1], y: [] })).toThrow('fitOls requires as many y as x');
  expect(() => requirePoints('fitOls', { x: [1], y: [Number.NaN] })).toThrow(
    'fitOls requires finite x and y',
  );
  expect(() => requirePoints('fitOls', { x: [1], y: [1], weight: [] })).toThrow('requires a weight for each');
  expect(() => requirePoints('fitOls', { x: [1], y: [1], weight: [-1] })).toThrow('weights of 0 or more');
});
