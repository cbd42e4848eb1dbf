import { expect, it } from 'vitest';
import { estimateHodgesLehmann } from '#server/engine/robust/estimate-hodges-lehmann.ts';
import { estimateHuberLocation } from '#server/engine/robust/estimate-huber-location.ts';
import { estimateHuberLocationAndScale } from '#server/engine/robust/estimate-huber-location-and-scale.ts';
import { fitRobustRegression } from '#server/engine/robust/fit-robust-regression.ts';
import { measureMedian } from '#server/engine/robust/measure-median.ts';
import { measureWeightedMad } from '#server/engine/robust/measure-weighted-mad.ts';
import { measureWeightedMedian } from '#server/engine/robust/measure-weighted-median.ts';
import { had } from './had.ts';
import { expectCase, readCase } from './published-case.ts';

// Analytical Methods Committee (1989), The Analyst 114, 1693-1702, copper in flour; values printed in the test
// output of a public library to Venables and Ripley (2002), section 5.5: mark a; the median: mark c.
it('estimates location and scale of values with a far one', () => {
  const one = readCase('05-loc-chem');
  const { y } = one.input as { y: number[] };
  const huber = had(estimateHuberLocation({ values: y, k: 1.5 }));
  const both = had(estimateHuberLocationAndScale({ values: y, k: 1.5 }));
  const printed = expectCase(one, {
    n: huber.n,
    median: measureWeightedMedian(y),
    mad: measureWeightedMad(y),
    hodges_lehmann: had(estimateHodgesLehmann(y)),
    'huber_k1.5_mu': huber.location,
    'proposal2_k1.5_mu': both.location,
    'proposal2_k1.5_s': both.scale,
  });
  expect(printed).toHaveLength(5);
  expectCase(one, { median: measureMedian(y) });
});

// Hollander and Wolfe (1999), Nonparametric Statistical Methods, examples 3.1 and 3.3, depression scale: mark c.
it('estimates the location of paired differences', () => {
  const one = readCase('05-loc-hw-hamilton');
  const { y } = one.input as { y: number[] };
  const printed = expectCase(one, {
    median: measureWeightedMedian(y),
    mad: measureWeightedMad(y),
    hodges_lehmann: had(estimateHodgesLehmann(y)),
    'huber_k1.5_mu': had(estimateHuberLocation({ values: y, k: 1.5 })).location,
  });
  expect(printed).toEqual(['hodges_lehmann']);
});

// Brownlee (1965), Statistical Theory and Methodology, pp. 491-500, stack loss; values printed in the test output of
// a public library to Venables and Ripley (2002): mark a.
it('fits a plane with a Huber and with a bisquare weight', () => {
  const one = readCase('06-rlm-stackloss');
  const { X, y } = one.input as { X: Record<string, number[]>; y: number[] };
  const rows = y.map((_, i) => Object.values(X).map((column) => column[i] ?? Number.NaN));
  const answer = (psi: 'huber' | 'bisquare') => {
    const { coefficients: coef, se, scale, weights } = had(fitRobustRegression({ rows, y, psi }));
    return { coef, se, scale, weights };
  };
  const printed = expectCase(one, { huber: answer('huber'), bisquare: answer('bisquare') });
  expect(printed).toHaveLength(14);
});
