import { expect, it } from 'vitest';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { estimateHuberLocationAndScale } from './estimate-huber-location-and-scale.ts';

function estimate(values: number[], weight?: number[]) {
  const answer = estimateHuberLocationAndScale(weight === undefined ? { values } : { values, weight });
  if ('declined' in answer) throw new Error(answer.declined.reason);
  return answer;
}

it('is centred on symmetric values', () => {
  const { location, scale } = estimate([1, 2, 3, 4, 5]);
  expect(location).toBeCloseTo(3, 10);
  // None is drawn in, so s^2 = 2.5 / beta with beta(1.5) = 0.778464 by its formula.
  expect(scale).toBeCloseTo(Math.sqrt(2.5 / 0.778464), 5);
});

it('recovers the scale of normal values with one in twenty far off', () => {
  const random = seededRandom(8);
  const values = Array.from({ length: 4000 }, (_, i) => (i % 20 === 0 ? 500 : 20 + 3 * random.normal()));
  // Standard error of the scale of 3,800 normal values: 3 / sqrt(2 * 3800) = 0.034; the rest is what 5 % do to it.
  expect(estimate(values).location).toBeGreaterThan(19.85);
  expect(estimate(values).location).toBeLessThan(20.5);
  expect(estimate(values).scale).toBeLessThan(3.6);
});

it('does not depend on the unit of the weights', () => {
  const values = [1, 2, 4, 7, 30];
  expect(estimate(values, [1, 2, 1, 1, 1]).location).toBeCloseTo(
    estimate(values, [3, 6, 3, 3, 3]).location,
    10,
  );
  expect(estimate(values, [2, 2, 2, 2, 2]).scale).toBeCloseTo(estimate(values).scale, 10);
});

it('declines one value, and gives the median where more than half are equal', () => {
  expect(estimateHuberLocationAndScale({ values: [1] })).toMatchObject({ declined: { got: '1' } });
  expect(estimate([5, 5, 5, 80])).toEqual({ n: 4, location: 5, scale: 0 });
});
