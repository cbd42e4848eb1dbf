import { expect, it } from 'vitest';
import { recalibrateChance } from './recalibrate-chance.ts';

// Phi(-0.45) = 0.326355 (any table of the normal distribution).
it('runs as its note says', () => {
  expect(recalibrateChance(0.5, 0, 0)).toBeCloseTo(0.326355, 6);
});

// Phi^-1(0.8413447) = 1, Phi(0.25) = 0.598706 (any table of the normal distribution).
it('takes a straight line on the scale of normal deviates', () => {
  expect(recalibrateChance(0.8413447, 0, 0)).toBeCloseTo(0.598706, 6);
});

// Phi(0.25 - 2) = 0.040059, Phi(0.25 - 1) = 0.226627 (any table of the normal distribution).
it('believes a young rise less', () => {
  expect(recalibrateChance(0.8413447, 0, 1)).toBeCloseTo(0.040059, 6);
  expect(recalibrateChance(0.8413447, 0, 0.5)).toBeCloseTo(0.226627, 6);
});

it('sets right the chance of crossing from below and leaves what is past the limit alone', () => {
  expect(recalibrateChance(0.7, 0.4, 0)).toBeCloseTo(0.4 + 0.6 * 0.326355, 6);
  expect(recalibrateChance(0.4, 0.4, 0)).toBe(0.4);
  for (const youth of [0, 0.5, 1]) expect(recalibrateChance(1, 1, youth)).toBe(1);
});

it('leaves what is sure alone, and keeps the order', () => {
  expect(recalibrateChance(0, 0, 0)).toBe(0);
  expect(recalibrateChance(1, 0, 1)).toBe(1);
  for (const youth of [0, 1]) {
    const chances = [0.001, 0.02, 0.2, 0.5, 0.9, 0.999].map((chance) => recalibrateChance(chance, 0, youth));
    expect(chances).toEqual([...chances].sort((a, b) => a - b));
  }
});

it('does not fall below what is past the limit where rounding has the whole smaller', () => {
  expect(recalibrateChance(0.3 - 1e-12, 0.3, 0)).toBe(0.3);
});
