import { expect, it } from 'vitest';
import { inverseGaussianCdf } from '#server/engine/distributions/inverse-gaussian-cdf.ts';
import { inverseGaussianTail } from '#server/engine/distributions/inverse-gaussian-tail.ts';
import { expectCase, readCase } from './published-case.ts';

// Giner and Smyth (2016), R Journal 8(1), 339-351, values as in the tests of a public library: mark a.
it('follows the inverse Gaussian distribution far into both tails', () => {
  const one = readCase('16-igcdf-statmod');
  const { rows } = one.input as { rows: { x: number; mu: number; lambda: number }[] };
  const printed = expectCase(one, {
    cdf: rows.map(({ x, mu, lambda }) => inverseGaussianCdf(x, mu, lambda)),
    sf: rows.map(({ x, mu, lambda }) => inverseGaussianTail(x, mu, lambda)),
  });
  expect(printed).toEqual(['cdf/0', 'sf/1', 'cdf/2', 'cdf/3']);
});
