import { expect, it } from 'vitest';
import { fitOls } from './fit-ols.ts';

it('runs as its note says', () => {
  expect(fitOls({ x: [0, 1, 2], y: [1, 3, 5] })).toMatchObject({ slope: 2, intercept: 1, r2: 1, rss: 0 });
});

// By hand: x 1, 2, 3, 4 and y 1, 3, 2, 4: Sxx 5, Sxy 4, Syy 5, rss 1.8, s^2 0.9.
it('gives the standard errors of the textbook formulas', () => {
  const line = fitOls({ x: [1, 2, 3, 4], y: [1, 3, 2, 4] });
  expect(line).toMatchObject({
    slope: expect.closeTo(0.8, 12),
    intercept: expect.closeTo(0.5, 12),
    seSlope: expect.closeTo(Math.sqrt(0.9 / 5), 12),
    seIntercept: expect.closeTo(Math.sqrt(0.9 * (1 / 4 + 6.25 / 5)), 12),
    r2: expect.closeTo(0.64, 12),
  });
});

it('takes weights as relative: their unit does not matter', () => {
  const [x, y] = [
    [1, 2, 3, 5],
    [1, 3, 2, 9],
  ];
  const one = fitOls({ x, y, weight: [1, 2, 3, 4] });
  const other = fitOls({ x, y, weight: [10, 20, 30, 40] });
  if ('declined' in one || 'declined' in other) throw new Error('declined');
  expect(other.slope).toBeCloseTo(one.slope, 12);
  expect(other.seSlope).toBeCloseTo(one.seSlope, 12);
  expect(other.seIntercept).toBeCloseTo(one.seIntercept, 12);
});

it('says that nothing is explained where all y are equal', () => {
  expect(fitOls({ x: [1, 2, 3], y: [4, 4, 4] })).toMatchObject({ slope: 0, intercept: 4, r2: null });
});

it('declines too few points and equal x', () => {
  expect(fitOls({ x: [1, 2], y: [1, 2] })).toEqual({
    declined: { reason: 'too few points', needed: 'at least 3', got: '2' },
  });
  expect(fitOls({ x: [2, 2, 2], y: [1, 2, 3] })).toMatchObject({ declined: { reason: 'all x equal' } });
  expect(() => fitOls({ x: [1], y: [] })).toThrow('fitOls requires');
});
