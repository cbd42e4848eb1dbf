import { expect, it } from 'vitest';
import { readProcessorSeconds } from './processor-time.ts';
import { inTurn, median, quantile } from './timing.ts';

it('takes the middle of what was seen, and a share of it', () => {
  expect(median([9, 1, 5])).toBe(5);
  expect(median([9, 1, 5, 6])).toBe(5.5);
  expect(quantile([4, 3, 2, 1], 0.5)).toBe(2);
  expect(quantile([4, 3, 2, 1], 0.99)).toBe(4);
});

it('measures in turn, each first every other time, and takes the ratio round by round', async () => {
  const order: string[] = [];
  const found = await inTurn(
    3,
    async (round) => {
      order.push(`a${round}`);
      return [2, 20, 8][round] ?? 0;
    },
    async (round) => {
      order.push(`b${round}`);
      return [1, 10, 8][round] ?? 0;
    },
  );
  expect(order).toEqual(['a0', 'b0', 'b1', 'a1', 'a2', 'b2']);
  expect(found).toEqual({ first: 8, second: 8, ratio: 2 });
});

it('counts the processor time of a process', () => {
  const before = readProcessorSeconds([process.pid]);
  const until = process.cpuUsage().user + 100_000;
  let n = 0;
  while (process.cpuUsage().user < until) n++;
  expect(n).toBeGreaterThan(0);
  expect(readProcessorSeconds([process.pid]) - before).toBeGreaterThan(0.06);
});
