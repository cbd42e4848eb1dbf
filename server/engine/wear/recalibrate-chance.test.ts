import { expect, it } from 'vitest';
import { recalibrateChance } from './recalibrate-chance.ts';

// Phi(-0.75) = 0.226627 (any table of the normal distribution).
it('runs as its note says', () => {
  expect(recalibrateChance(0.5, 0)).toBeCloseTo(0.226627, 6);
});

// Phi^-1(0.841345) = 1, Phi(0.05) = 0.519939 (any table of the normal distribution).
it('takes a straight line on the scale of normal deviates', () => {
  expect(recalibrateChance(0.8413447, 0)).toBeCloseTo(0.519939, 6);
});

it('sets right the chance of crossing from below and leaves what is past the limit alone', () => {
  expect(recalibrateChance(0.7, 0.4)).toBeCloseTo(0.4 + 0.6 * 0.226627, 6);
  expect(recalibrateChance(0.4, 0.4)).toBe(0.4);
  expect(recalibrateChance(1, 1)).toBe(1);
});

it('leaves what is sure alone, and keeps the order', () => {
  expect(recalibrateChance(0, 0)).toBe(0);
  expect(recalibrateChance(1, 0)).toBe(1);
  const chances = [0.001, 0.02, 0.2, 0.5, 0.9, 0.999].map((chance) => recalibrateChance(chance, 0));
  expect(chances).toEqual([...chances].sort((a, b) => a - b));
});

it('does not fall below what is past the limit where rounding has the whole smaller', () => {
  expect(recalibrateChance(0.3 - 1e-12, 0.3)).toBe(0.3);
});
