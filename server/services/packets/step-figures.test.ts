import { expect, it } from 'vitest';
import { ampsApart, asEntered, decimalsApart, decimalsOf } from './step-figures.ts';

it('shows as many decimals as tell figures apart, all alike', () => {
  expect(ampsApart([4, 3, 5])).toEqual(['4.0', '3.0', '5.0']);
  expect(ampsApart([2.96, 3, 5])).toEqual(['2.96', '3.00', '5.00']);
  expect(ampsApart([1, 0.75, 1.25])).toEqual(['1.00', '0.75', '1.25']);
  expect(decimalsApart([1.2 - 1, 0.2, 0.4], 1)).toEqual(['0.2', '0.2', '0.4']);
  expect(decimalsApart([2.79, 2.8], 1)).toEqual(['2.79', '2.80']);
});

it('keeps to few decimals where only more than are sensible would do', () => {
  expect(decimalsApart([2.79999, 2.8], 1)).toEqual(['2.8', '2.8']);
});

it('does not show 0 below 0', () => {
  expect(decimalsApart([-0.001], 1)).toEqual(['0.0']);
});

it.each([
  [5, 0],
  [0.2, 1],
  [0.05, 2],
  [0.001, 3],
])('knows that a gauge with steps of %d shows %d decimals', (step, digits) => {
  expect(decimalsOf(step)).toBe(digits);
});

it('leaves what was entered as it was', () => {
  expect(asEntered(0.02)).toBe('0.02');
  expect(asEntered(4100)).toBe('4,100');
});
