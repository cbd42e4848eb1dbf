import type { SurvivalPoint } from './estimate-kaplan-meier.ts';

/** One half, but for what products of fractions lose. */
const HALF = 0.5 + 1e-12;

/**
 * Median life from a Kaplan-Meier estimate.
 *
 * First x with S(x) <= 0.5; its bounds are the first x at which the lower and the upper bound of S are 0.5 or less.
 *
 * @param points of {@link estimateKaplanMeier}
 * @returns the median and its bounds, in the unit of x; null where survival stays above one half, a bound null where its
 * curve does, or ends before
 * Source: Brookmeyer and Crowley (1982), Biometrics 38, 29-41, with the bounds of the points (from memory).
 * Variant: no midpoint where S is one half over a stretch. Edges: no points give null. Errors: none.
 * @example findMedianLife([{ x: 5, atRisk: 2, events: 1, censored: 0, survival: 0.5, se: 0.35, low: 0.01, high: 0.91 }]) // { estimate: 5, low: 5, high: null }
 */
export function findMedianLife(
  points: readonly SurvivalPoint[],
): { estimate: number; low: number | null; high: number | null } | null {
  const estimate = points.find(({ survival }) => survival <= HALF)?.x;
  if (estimate === undefined) return null;
  const firstBelow = (which: 'low' | 'high') =>
    points.find((point) => (point[which] ?? 1) <= HALF)?.x ?? null;
  return { estimate, low: firstBelow('low'), high: firstBelow('high') };
}
