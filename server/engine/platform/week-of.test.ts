import { expect, it } from 'vitest';
import { weekOf } from './week-of.ts';

it('runs as its note says', () => {
  expect(weekOf(4 * 86_400_000)).toBe(0);
});

it('counts from Monday to Sunday, UTC', () => {
  const monday = weekOf(Date.UTC(2025, 0, 6));
  expect(weekOf(Date.UTC(2025, 0, 12, 23, 59, 59, 999))).toBe(monday);
  expect(weekOf(Date.UTC(2025, 0, 5, 23, 59, 59, 999))).toBe(monday - 1);
});

it('is negative before the first Monday', () => {
  expect(weekOf(0)).toBe(-1);
});
