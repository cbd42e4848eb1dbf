import { expect, it } from 'vitest';
import { quantileOfWeibull } from './quantile-of-weibull.ts';

const certain = { shape: 2, scale: 1, varLogScale: 0, varLogShape: 0, covLogs: 0 };

it('runs as its note says', () => {
  const { estimate, low, high } = quantileOfWeibull(certain, 0.1, 0.95);
  expect([estimate, low, high].map((one) => one.toFixed(6))).toEqual(['0.324593', '0.324593', '0.324593']);
});

it('gives the scale at 63.2 %, with its own bounds', () => {
  const fit = { ...certain, scale: 9, varLogScale: 0.04, varLogShape: 0.3 };
  const { estimate, low } = quantileOfWeibull(fit, 1 - Math.exp(-1), 0.95);
  expect(estimate).toBeCloseTo(9, 12);
  expect(low).toBeCloseTo(9 * Math.exp(-1.959964 * 0.2), 5);
});

it('refuses shares outside 0 to 1', () => {
  expect(() => quantileOfWeibull(certain, 1, 0.95)).toThrow('quantileOfWeibull requires');
});
