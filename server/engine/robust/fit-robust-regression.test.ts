import { expect, it } from 'vitest';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { fitRobustRegression, type RobustRegressionQuestion } from './fit-robust-regression.ts';

function regression(question: RobustRegressionQuestion) {
  const answer = fitRobustRegression(question);
  if ('declined' in answer) throw new Error(answer.declined.reason);
  return answer;
}

it('runs as its note says: four points on a line outvote the fifth', () => {
  const { coefficients, scale } = regression({ rows: [[0], [1], [2], [3], [4]], y: [0, 1, 40, 3, 4] });
  expect(coefficients[1]).toBeCloseTo(1, 6);
  expect(scale).toBe(0);
});

it.each(['huber', 'bisquare'] as const)('recovers a line under glitches (%s)', (psi) => {
  const random = seededRandom(21);
  const rows = Array.from({ length: 400 }, (_, i) => [i / 100, random.uniform()]);
  const y = rows.map(([a = 0, b = 0], i) => 2 + 3 * a - b + 0.5 * random.normal() + (i % 25 === 0 ? 30 : 0));
  const { coefficients, se } = regression({ rows, y, psi });
  // Within four of its own standard errors; Huber's is drawn a little by 4 % one-sided glitches.
  expect(Math.abs((coefficients[1] ?? 0) - 3)).toBeLessThan(4 * (se[1] ?? 0));
  expect(Math.abs((coefficients[2] ?? 0) + 1)).toBeLessThan(4 * (se[2] ?? 0));
  expect(se[1]).toBeLessThan(0.04);
});

it('takes weights as 1 / variance: the unit does not matter, equal ones change nothing', () => {
  const rows = [[0], [1], [2], [3], [4], [5]];
  const y = [0.1, 1.3, 1.8, 3.3, 3.7, 9];
  const plain = regression({ rows, y });
  const equal = regression({ rows, y, weight: Array(6).fill(4) });
  equal.coefficients.forEach((one, i) => {
    expect(one).toBeCloseTo(plain.coefficients[i] ?? Number.NaN, 8);
  });
  equal.se.forEach((one, i) => {
    expect(one).toBeCloseTo(plain.se[i] ?? Number.NaN, 8);
  });
});

it('goes through the origin when asked', () => {
  expect(regression({ rows: [[1], [2], [3]], y: [2.1, 3.9, 6], intercept: false }).coefficients).toHaveLength(
    1,
  );
});

it('declines what cannot be had', () => {
  expect(fitRobustRegression({ rows: [[1], [2]], y: [1, 2] })).toMatchObject({
    declined: { reason: 'too few points', needed: 'at least 3', got: '2' },
  });
  expect(fitRobustRegression({ rows: [[1], [1], [1], [1]], y: [1, 2, 3, 4] })).toMatchObject({
    declined: { reason: 'regressors depend on each other' },
  });
  expect(() => fitRobustRegression({ rows: [[1]], y: [1, 2] })).toThrow('fitRobustRegression requires');
  expect(() => fitRobustRegression({ rows: [[1]], y: [Number.NaN] })).toThrow('requires finite');
  expect(() => fitRobustRegression({ rows: [[1]], y: [1], weight: [0] })).toThrow(
    'requires a weight above 0',
  );
});
