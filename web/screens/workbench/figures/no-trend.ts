import type { TrendReply } from '#server/contract/analysis.ts';

/** What stands for an answer where there are too few points to ask for one: they are drawn all the same. */
export const noTrend = (n: number): TrendReply => ({
  n,
  ols: null,
  theil_sen: null,
  mann_kendall: null,
  hamed_rao: null,
  hinge: null,
  level_shift: null,
  cusum: null,
  ewma: null,
  declined: {},
});
