import { type Declined, decline } from '#server/engine/declined.ts';
import { fitFlatThenRising } from './fit-flat-then-rising.ts';
import { fitLevelShift } from './fit-level-shift.ts';
import type { Points } from './require-points.ts';

/**
 * Level shift against gradual drift.
 *
 * Both models have three parameters, so their likelihoods are compared as they are:
 * log L(drift) - log L(shift) = (rss shift - rss drift) / 2 with known variances, n / 2 log(rss shift / rss drift)
 * with the scale estimated. Above 0 it favours the drift; 2 and more is said to be clear (7 to 1).
 *
 * @param x, y, weight any order; weight in 1 / (unit of y)^2 where the scale is known
 * @param scale known where weights are given, else estimated
 * @returns logarithm of the likelihood ratio, drift over shift; Infinity where only the drift fits without rest
 * Source: comparison of maximised likelihoods, Akaike (1974), IEEE Trans. Automat. Control 19, 716-723, with equal
 * numbers of parameters. Edges: declined as {@link fitFlatThenRising} and {@link fitLevelShift}, and where both fit
 * without rest. Errors: as these.
 * @example tellShiftFromDrift({ x: [1, 2, 3, 4, 5, 6], y: [1, 2, 1, 9, 8, 9] }) // below 0: a shift
 */
export function tellShiftFromDrift(
  question: Points & { scale?: 'known' | 'estimated' },
): { logLikelihoodRatio: number } | Declined {
  const drift = fitFlatThenRising(question);
  if ('declined' in drift) return drift;
  const shift = fitLevelShift(question);
  if ('declined' in shift) return shift;
  const { scale = question.weight === undefined ? 'estimated' : 'known' } = question;
  return compareDriftWithShift({ n: drift.n, rssDrift: drift.rss, rssShift: shift.rss, scale });
}

/**
 * Log likelihood of a drift less that of a level shift, both fitted to the same points.
 *
 * @param n        points
 * @param rssDrift, rssShift weighted residual sums of squares of the fits
 * @param scale    known: the weights are 1 / variance; estimated: the scatter tells the scale
 * @returns as {@link tellShiftFromDrift}, or declined where the scale is estimated and both fit without rest
 * Source: as {@link tellShiftFromDrift}. Edges: -Infinity where only the shift fits without rest. Errors: none.
 * @example compareDriftWithShift({ n: 20, rssDrift: 10, rssShift: 20, scale: 'known' }) // 5
 */
export function compareDriftWithShift({
  n,
  rssDrift,
  rssShift,
  scale,
}: {
  n: number;
  rssDrift: number;
  rssShift: number;
  scale: 'known' | 'estimated';
}): { logLikelihoodRatio: number } | Declined {
  if (scale === 'known') return { logLikelihoodRatio: (rssShift - rssDrift) / 2 };
  if (rssShift === 0 && rssDrift === 0) return decline('both fit without rest', 'some scatter', 'none');
  return { logLikelihoodRatio: (n / 2) * Math.log(rssShift / rssDrift) };
}
