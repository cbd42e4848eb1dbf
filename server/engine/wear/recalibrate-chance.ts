import { normalCdf } from '#server/engine/distributions/normal-cdf.ts';
import { normalQuantile } from '#server/engine/distributions/normal-quantile.ts';

/** By fleets simulated for building, 300 vehicles each, looked at every second week; see docs/measurements.md. */
const SHIFT = -0.45;
const SLOPE = 0.7;
const YOUNG_SHIFT = -2;

/**
 * Chance of crossing the limit within some kilometres, set right by how such chances came true.
 *
 * The way left is told short on purpose (see learnWear), and clutches that break up in pieces rest between them: taken as
 * they come, the shares of outlooks that cross are too large, most of all where a rise has only begun, since there the usual
 * span speaks and not the rise. With r the chance past the limit now, c = (chance - r) / (1 - r) that of crossing from
 * below, and y the youth of the rise:
 * chance' = r + (1 - r) Phi(-0.45 + 0.7 Phi^-1(c) - 2 y).
 * What is past the limit now is left as it is: that chance came true as it was stated.
 *
 * @param chance   crosses within some kilometres or has crossed, from 0 to 1
 * @param pastNow  has crossed, from 0 to `chance`
 * @param youth    of the rise, from 0 to 1 (see measureYouth)
 * @returns the chance set right; rises with `chance`, falls with `youth`
 * Source: calibration by a line on the scale of the link, Platt (1999), Probabilistic outputs for support vector machines, in
 * Advances in Large Margin Classifiers, 61-74; with the probit for the logit, Cox (1958), Biometrika 45, 562-565 (both from
 * memory); youth beside it is an own choice. Edges: 0 and 1 stay; `pastNow` of 1 gives 1. Errors: none.
 * @example recalibrateChance(0.5, 0, 0) // 0.326355
 */
export function recalibrateChance(chance: number, pastNow: number, youth: number): number {
  const room = 1 - pastNow;
  if (room <= 0) return 1;
  const fromBelow = Math.min(1, Math.max(0, (chance - pastNow) / room));
  return pastNow + room * normalCdf(SHIFT + SLOPE * normalQuantile(fromBelow) + YOUNG_SHIFT * youth);
}
