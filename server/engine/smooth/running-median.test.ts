import { expect, it } from 'vitest';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { runningMedian } from './running-median.ts';

it('runs as its note says', () => {
  expect(runningMedian([1, 9, 2], 1)).toEqual([5, 2, 5.5]);
});

it('takes a lone far value out and keeps an edge', () => {
  expect(runningMedian([1, 1, 50, 1, 1], 1)).toEqual([1, 1, 1, 1, 1]);
  expect(runningMedian([0, 0, 0, 7, 7, 7], 1)).toEqual([0, 0, 0, 7, 7, 7]);
});

it('is the middle of each window, by plain sorting', () => {
  const { normal } = seededRandom(4);
  const values = Array.from({ length: 40 }, normal);
  const half = 3;
  const slow = values.map((_, i) => {
    const window = values.slice(Math.max(0, i - half), i + half + 1).sort((a, b) => a - b);
    const [low, high] = [window[Math.ceil(window.length / 2) - 1], window[Math.floor(window.length / 2)]];
    return ((low ?? Number.NaN) + (high ?? Number.NaN)) / 2;
  });
  expect(runningMedian(values, half)).toEqual(slow);
});

it('gives the values back with a half width of 0, and none for none', () => {
  expect(runningMedian([3, 1, 2], 0)).toEqual([3, 1, 2]);
  expect(runningMedian([], 3)).toEqual([]);
});
