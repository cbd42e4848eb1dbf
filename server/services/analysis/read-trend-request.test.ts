import { expect, it } from 'vitest';
import { analyseTrend } from './analyse-trend.ts';
import { readTrendRequest } from './read-trend-request.ts';

const request = (largest: number) =>
  JSON.stringify({
    x: [0, 0, 0, 0, 0, 0, 0, 0, 0, 0, largest, 0, 0],
    y: Array.from({ length: 13 }, (_, i) => (i % 2 === 0 ? -largest : largest)),
  });

it('refuses numbers whose powers, summed, would be no numbers, and names the first', () => {
  expect(() => readTrendRequest(request(1e308))).toThrow(/x\.10 must be at most 1e\+60, not 1e\+308/);
});

it('computes with the largest that it takes', () => {
  const { theil_sen } = analyseTrend(readTrendRequest(request(1e60)));
  expect(Number.isFinite(theil_sen?.slope)).toBe(true);
});
