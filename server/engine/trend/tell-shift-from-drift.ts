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
  if (scale === 'known') return { logLikelihoodRatio: (shift.rss - drift.rss) / 2 };
  if (shift.rss === 0 && drift.rss === 0) return decline('both fit without rest', 'some scatter', 'none');
  return { logLikelihoodRatio: (drift.n / 2) * Math.log(shift.rss / drift.rss) };
}
