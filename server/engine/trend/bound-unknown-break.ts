import { normalCdf } from '#server/engine/distributions/normal-cdf.ts';
import { tCdf } from '#server/engine/distributions/t-cdf.ts';

/** What the p-value of a strongest kink depends on. */
export interface BreakEvidence {
  /** largest statistic: in standard deviations where these are known, else as a correlation (-1 to 1) */
  peak: number;
  /** length of the path of the normed regressor, radians */
  length: number;
  /** dimensions left of the errors once the baseline is out (n - 1 or n - 2); null: standard deviation known */
  dimensions: number | null;
}

/**
 * Upper bound of the one-sided p-value of the strongest of many kinks, allowing for the search.
 *
 * Known standard deviation: p <= Phi(-c) + length / (2 pi) exp(-c^2 / 2).
 * Estimated, with r = c / |y| and m dimensions: p <= P(T(m - 1) > r sqrt(m - 1) / sqrt(1 - r^2))
 * + length / (2 pi) (1 - r^2)^((m - 2) / 2).
 *
 * @param peak, length, dimensions see {@link BreakEvidence}
 * @returns probability
 * Source: Davies (1987), Biometrika 74, 33-43 (upcrossing bound; here with the expected length of the path instead
 * of the observed total variation), and for the estimated case Hotelling (1939), Amer. J. Math. 61, 440-460, as in
 * Knowles and Siegmund (1989), Int. Statist. Rev. 57, 205-220 (all from memory).
 * Variant: one-sided; double it for a change of either sign. Edges: capped at 1; a peak of 0 or less is at least
 * 0.5; a correlation of 1 gives 0. Errors: throws on fewer than 2 dimensions.
 * @example boundUnknownBreak({ peak: 3, length: 0, dimensions: null }) // 0.00135, the plain normal tail
 */
export function boundUnknownBreak({ peak, length, dimensions }: BreakEvidence): number {
  const path = length / (2 * Math.PI);
  if (dimensions === null) return Math.min(1, normalCdf(-peak) + path * Math.exp((-peak * peak) / 2));
  if (dimensions < 2) throw new Error('boundUnknownBreak requires at least 2 dimensions');
  const left = 1 - peak * peak;
  if (left <= 0) return peak > 0 ? 0 : 1;
  const single = tCdf((-peak * Math.sqrt(dimensions - 1)) / Math.sqrt(left), dimensions - 1);
  return Math.min(1, single + path * left ** ((dimensions - 2) / 2));
}
