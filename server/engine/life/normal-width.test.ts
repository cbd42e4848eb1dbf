import { expect, it } from 'vitest';
import { normalWidth } from './normal-width.ts';

it('runs as its note says', () => {
  expect(normalWidth(0.95)).toBeCloseTo(1.959964, 6);
});

it('keeps its digits near certainty, and refuses certainty', () => {
  expect(normalWidth(1 - 2 ** -53)).toBeGreaterThan(8);
  expect(normalWidth(1 - 2 ** -53)).toBeLessThan(9);
  expect(() => normalWidth(1)).toThrow('normalWidth requires');
});
