import { expect, it } from 'vitest';
import { requireValues } from './require-values.ts';

it('leaves out what weighs nothing', () => {
  expect(requireValues('f', [3, 4], [1, 0])).toEqual([{ value: 3, weight: 1 }]);
});

it('names the caller whose values cannot be worked with', () => {
  expect(() => requireValues('f', [1], [])).toThrow('f requires a weight for each value');
  expect(() => requireValues('f', [Number.NaN])).toThrow('f requires finite values');
  expect(() => requireValues('f', [1], [-1])).toThrow('f requires finite weights of 0 or more');
});
