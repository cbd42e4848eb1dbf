import { expect, it } from 'vitest';
import { healthyAt } from './healthy-at.ts';

const healthy = [
  { dutyPct: 60, lowRpm: 10, usualRpm: 30, highRpm: 50 },
  { dutyPct: 80, lowRpm: 0, usualRpm: 10, highRpm: 20 },
];

it('runs as its note says', () => {
  expect(healthyAt(85, [])).toBeNull();
});

it('is known where it was learned, and straight between', () => {
  expect(healthyAt(60, healthy)).toEqual(healthy[0]);
  expect(healthyAt(75, healthy)).toEqual({ dutyPct: 75, lowRpm: 2.5, usualRpm: 15, highRpm: 27.5 });
});

it('stands up to 10 % beyond, and no further', () => {
  expect(healthyAt(90, healthy)).toEqual({ dutyPct: 90, lowRpm: 0, usualRpm: 10, highRpm: 20 });
  expect(healthyAt(50, healthy)?.usualRpm).toBe(30);
  expect(healthyAt(90.1, healthy)).toBeNull();
  expect(healthyAt(49.9, healthy)).toBeNull();
});
