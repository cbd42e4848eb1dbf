import { expect, it } from 'vitest';
import { fitOls } from './fit-ols.ts';
import { fitPolynomial } from './fit-polynomial.ts';

it('runs as its note says', () => {
  const curve = fitPolynomial({ x: [0, 1, 2, 3], y: [1, 2, 5, 10], degree: 2 });
  if ('declined' in curve) throw new Error('declined');
  [1, 0, 1].forEach((one, i) => {
    expect(curve.coefficients[i]).toBeCloseTo(one, 10);
  });
});

it('is the straight line with degree 1, weights included', () => {
  const points = { x: [1e6, 1e6 + 2, 1e6 + 3, 1e6 + 7], y: [3, 5, 4, 9], weight: [1, 2, 0.5, 1] };
  const [curve, line] = [fitPolynomial({ ...points, degree: 1 }), fitOls(points)];
  if ('declined' in curve || 'declined' in line) throw new Error('declined');
  expect(curve.coefficients[1]).toBeCloseTo(line.slope, 9);
  expect(curve.se[1]).toBeCloseTo(line.seSlope, 9);
  expect(curve.r2).toBeCloseTo(line.r2 ?? Number.NaN, 9);
});

it('declines what cannot be had, and is never asked for a broken degree', () => {
  expect(fitPolynomial({ x: [1, 2, 3], y: [1, 2, 3], degree: 2 })).toMatchObject({ declined: { got: '3' } });
  expect(fitPolynomial({ x: [1, 1, 2, 2], y: [1, 2, 3, 4], degree: 2 })).toMatchObject({
    declined: { reason: 'too few different x' },
  });
  expect(() => fitPolynomial({ x: [1], y: [1], degree: 1.5 })).toThrow(
    'fitPolynomial requires a whole degree',
  );
});
