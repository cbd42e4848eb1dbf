import { type Declined, decline } from '#server/engine/declined.ts';

/** A Wiener process on its way to a limit. */
export interface Approach {
  /** to the limit, above 0, unit of y */
  distance: number;
  /** unit of y per unit of t */
  drift: number;
  /** (unit of y)^2 per unit of t, above 0 */
  variance: number;
}

/**
 * First passage of a Wiener process with drift towards the limit: the inverse Gaussian distribution.
 *
 * mean = distance / drift, lambda = distance^2 / variance, sd = sqrt(mean^3 / lambda).
 *
 * @param distance, drift, variance see {@link Approach}
 * @returns mean, shape and standard deviation in the unit of t, or declined where it does not drift to the limit
 * Source: Chhikara and Folks (1989), The Inverse Gaussian Distribution, section 3.2; Tweedie (1957), Ann. Math.
 * Statist. 28, 362-377 (from memory). Edges: a drift of 0 or less has no mean, see chanceOfPassage.
 * Errors: throws on a distance or variance of 0 or less.
 * @example describePassage({ distance: 10, drift: 2, variance: 4 }) // mean 5, lambda 25, sd 2.236
 */
export function describePassage({
  distance,
  drift,
  variance,
}: Approach): { mean: number; lambda: number; sd: number } | Declined {
  if (!(distance > 0 && variance > 0)) {
    throw new Error('describePassage requires a distance and a variance above 0');
  }
  if (!(drift > 0)) return decline('no drift to the limit', 'a drift above 0', `${drift}`);
  const mean = distance / drift;
  const lambda = distance ** 2 / variance;
  return { mean, lambda, sd: Math.sqrt(mean ** 3 / lambda) };
}
