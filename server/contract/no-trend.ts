import type { TrendParts } from './analysis.ts';

/** No part of a trend: what an answer is filled into, and what stands where there are too few points to ask for one. */
export const noTrendParts: TrendParts = {
  ols: null,
  theil_sen: null,
  mann_kendall: null,
  hamed_rao: null,
  hinge: null,
  level_shift: null,
  cusum: null,
  ewma: null,
};
