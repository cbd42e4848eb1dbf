import { normalCdf } from '#server/engine/distributions/normal-cdf.ts';
import { normalQuantile } from '#server/engine/distributions/normal-quantile.ts';

/** By a fleet simulated for building, 300 vehicles looked at every second week; see docs/measurements.md. */
const SHIFT = -0.75;
const SLOPE = 0.8;

/**
 * Chance of crossing the limit within some kilometres, set right by how such chances came true.
 *
 * The way left is told short on purpose (see learnWear), and clutches that break up in pieces rest between them: taken as
 * they come, the shares of outlooks that cross are too large. With r the chance past the limit now and
 * c = (chance - r) / (1 - r) that of crossing from below:
 * chance' = r + (1 - r) Phi(-0.75 + 0.8 Phi^-1(c)).
 *
 * @param chance   crosses within some kilometres or has crossed, from 0 to 1
 * @param pastNow  has crossed, from 0 to `chance`
 * @returns the chance set right; rises with `chance`, so that no order changes
 * Source: calibration by a line on the scale of the link, Platt (1999), Probabilistic outputs for support vector machines, in
 * Advances in Large Margin Classifiers, 61-74; with the probit for the logit, Cox (1958), Biometrika 45, 562-565 (both from
 * memory). Edges: 0 and 1 stay; `pastNow` of 1 gives 1. Errors: none.
 * @example recalibrateChance(0.5, 0) // 0.226627
 */
export function recalibrateChance(chance: number, pastNow: number): number {
  const room = 1 - pastNow;
  if (room <= 0) return 1;
  const fromBelow = Math.min(1, Math.max(0, (chance - pastNow) / room));
  return pastNow + room * normalCdf(SHIFT + SLOPE * normalQuantile(fromBelow));
}
