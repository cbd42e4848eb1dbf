import { type Declined, isDeclined } from '#server/engine/declined.ts';
import { normalCdf } from '#server/engine/distributions/normal-cdf.ts';
import { type Kendall, measureKendall } from './measure-kendall.ts';

/** What the test of a trend by Kendall's S says. */
export interface MannKendall extends Kendall {
  /** standard normal deviate of S, corrected for continuity */
  z: number;
  /** two-sided */
  p: number;
}

/**
 * Mann-Kendall test for a trend that only goes one way.
 *
 * Z = (S - sign S) / sqrt(var S), p = 2 Phi(-|Z|); S and its tie-corrected variance as in {@link measureKendall}.
 *
 * @param y values in order of time
 * @param x times of the values, any unit, with equal ones for several values at a time; without it 1 to n
 * @returns S, variance, Z, p and tau, or declined as {@link measureKendall}
 * Source: Mann (1945), Econometrica 13, 245-259; Kendall (1975), Rank Correlation Methods; Gilbert (1987),
 * Statistical Methods for Environmental Pollution Monitoring, sections 16.4 and 17.2; Helsel and Hirsch (2002),
 * Statistical Methods in Water Resources, USGS, section 12.2 (from memory).
 * Variant: normal approximation at every n; Gilbert uses exact tables up to n = 10.
 * Edges: S of 0 gives Z 0 and p 1. Serial correlation makes p too small: see testHamedRao.
 * Errors: as {@link measureKendall}.
 * @example testMannKendall({ y: [10, 15, 14, 20] }) // s 4, z 1.019, p 0.308
 */
export function testMannKendall({
  y,
  x = y.map((_, i) => i + 1),
}: {
  y: readonly number[];
  x?: readonly number[];
}): MannKendall | Declined {
  const kendall = measureKendall(x, y);
  if (isDeclined(kendall)) return kendall;
  const z = (kendall.s - Math.sign(kendall.s)) / Math.sqrt(kendall.varS);
  return { ...kendall, z, p: Math.min(1, 2 * normalCdf(-Math.abs(z))) };
}
