import { Matrix } from 'ml-matrix';
import { expect, it } from 'vitest';
import { climbLikelihood } from './climb-likelihood.ts';

it('runs as its note says', () => {
  const { at, hasSettled } = climbLikelihood(
    [0],
    ([x = 0]) => ({ value: -((x - 3) ** 2), gradient: [-2 * (x - 3)], information: new Matrix([[2]]) }),
    20,
  );
  expect([at, hasSettled]).toEqual([[3], true]);
});

// -log cosh(x - 2): Newton's full steps diverge from 0, and far out there is no curvature to speak of.
it('halves steps that lead down', () => {
  const { at, hasSettled } = climbLikelihood(
    [0],
    ([x = 0]) => ({
      value: -Math.log(Math.cosh(x - 2)),
      gradient: [-Math.tanh(x - 2)],
      information: new Matrix([[1 / Math.cosh(x - 2) ** 2]]),
    }),
    50,
  );
  expect([at[0], hasSettled]).toEqual([expect.closeTo(2, 10), true]);
});

// The logarithm of Cauchy's density curves upwards beyond 1 from its top.
it('finds its way up from where the likelihood curves the other way', () => {
  const { at } = climbLikelihood(
    [-3],
    ([x = 0]) => {
      const square = 1 + (x - 2) ** 2;
      return {
        value: -Math.log(square),
        gradient: [(-2 * (x - 2)) / square],
        information: new Matrix([[(2 - 2 * (x - 2) ** 2) / square ** 2]]),
      };
    },
    50,
  );
  expect(at[0]).toBeCloseTo(2, 8);
});

it('says so where there is no top, or no number', () => {
  const rising = () => ({ value: 0, gradient: [1], information: new Matrix([[1]]) });
  let height = 0;
  expect(climbLikelihood([0], () => ({ ...rising(), value: height++ }), 5).hasSettled).toBe(false);
  const none = { value: 0, gradient: [Number.NaN], information: new Matrix([[1]]) };
  expect(climbLikelihood([0], () => none, 5)).toMatchObject({ hasSettled: false, at: [0] });
});
