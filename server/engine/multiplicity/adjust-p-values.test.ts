import { expect, it } from 'vitest';
import { adjustPValues } from './adjust-p-values.ts';

it('runs as its note says', () => {
  const adjusted = adjustPValues([0.01, 0.04, 0.03]);
  [0.03, 0.04, 0.04].forEach((one, i) => {
    expect(adjusted[i]).toBeCloseTo(one, 14);
  });
});

it('leaves one test as it is, and none as none', () => {
  expect(adjustPValues([0.2])).toEqual([0.2]);
  expect(adjustPValues([])).toEqual([]);
});

it('gives equal p-values equal q-values', () => {
  const [a, b, c] = adjustPValues([0.02, 0.5, 0.02]);
  expect(a).toBe(c);
  expect(b).toBe(0.5);
});

it('refuses what is no probability', () => {
  expect(() => adjustPValues([0.1, 1.2])).toThrow('adjustPValues requires');
  expect(() => adjustPValues([Number.NaN])).toThrow('adjustPValues requires');
});
