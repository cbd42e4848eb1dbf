import { expect, it } from 'vitest';
import { weekOf } from './week-of.ts';
import { weekStartMs } from './week-start-ms.ts';

it('runs as its note says', () => {
  expect(weekStartMs(0)).toBe(4 * 86_400_000);
});

it('is the first moment of the week', () => {
  const start = weekStartMs(2_870);
  expect(new Date(start).getUTCDay()).toBe(1);
  expect([weekOf(start - 1), weekOf(start)]).toEqual([2_869, 2_870]);
});

it('takes a fraction as a moment within the week', () => {
  expect(weekStartMs(10.5) - weekStartMs(10)).toBe(3.5 * 86_400_000);
});
