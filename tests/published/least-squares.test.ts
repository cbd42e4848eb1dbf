import { expect, it } from 'vitest';
import { fitOls } from '#server/engine/trend/fit-ols.ts';
import { fitPolynomial } from '#server/engine/trend/fit-polynomial.ts';
import { fitThroughOrigin } from '#server/engine/trend/fit-through-origin.ts';
import { had } from './had.ts';
import { expectCase, readCase } from './published-case.ts';

// NIST Statistical Reference Datasets, linear regression, Norris, NoInt1 and Pontius: certified values, mark a.
it('fits a line to Norris, to the certified digits', () => {
  const one = readCase('01-lin-nist-norris');
  const line = had(fitOls(one.input as { x: number[]; y: number[] }));
  const printed = expectCase(one, {
    coef: [line.intercept, line.slope],
    se: [line.seIntercept, line.seSlope],
    residual_sd: line.residualSd,
    residual_ss: line.rss,
    r_squared: line.r2,
  });
  expect(printed).toHaveLength(6);
});

it('fits a line through the origin to NoInt1', () => {
  const one = readCase('01-lin-nist-noint1');
  const line = had(fitThroughOrigin(one.input as { x: number[]; y: number[] }));
  const printed = expectCase(one, {
    coef: [line.slope],
    se: [line.seSlope],
    residual_sd: line.residualSd,
    residual_ss: line.rss,
    r_squared: line.r2,
  });
  expect(printed).toHaveLength(4);
});

it.each(['01-lin-nist-pontius', '01-lin-nist-norris'])('fits a polynomial to %s', (id) => {
  const one = readCase(id);
  const curve = had(fitPolynomial(one.input as { x: number[]; y: number[]; degree: number }));
  const printed = expectCase(one, {
    coef: curve.coefficients,
    se: curve.se,
    residual_sd: curve.residualSd,
    residual_ss: curve.rss,
    r_squared: curve.r2,
  });
  expect(printed).toHaveLength(2 * curve.coefficients.length + 2);
});
