import { expect, it } from 'vitest';
import { clutchHeatKw } from './clutch-heat-kw.ts';

// 100 rpm is 10.47 rad/s; times 300 N m is 1,000 pi W.
it('runs as its note says', () => {
  expect(clutchHeatKw(300, 100)).toBeCloseTo(Math.PI, 12);
});

it('grows with torque and with slip alike', () => {
  expect(clutchHeatKw(600, 50)).toBeCloseTo(clutchHeatKw(300, 100), 12);
});

it('is 0 in overrun', () => {
  expect(clutchHeatKw(-50, 100)).toBe(0);
  expect(clutchHeatKw(300, -10)).toBe(0);
});
