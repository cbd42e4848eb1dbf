import type { ObservedLife } from './life-model.ts';
import { normalWidth } from './normal-width.ts';
import { requireLives } from './require-lives.ts';
import { tabulateLives } from './tabulate-lives.ts';

export interface SurvivalPoint {
  /** where lives failed */
  x: number;
  atRisk: number;
  events: number;
  /** lives that ran on, seen last from x until before the next point */
  censored: number;
  survival: number;
  /** null where nobody is left */
  se: number | null;
  low: number | null;
  high: number | null;
}

/**
 * Kaplan-Meier estimate of survival, with late entry.
 *
 * S(x) = product over failures at u <= x of (1 - d / n); Greenwood: se = S sqrt(G), G = sum d / (n (n - d));
 * log-log bounds S^exp(-+ z sqrt(G) / log S).
 *
 * @param lives      in any order
 * @param confidence of the bounds, at each point by itself; above 0, below 1
 * @param table      of the lives, where it is at hand
 * @returns a point at each mileage where lives failed; se and bounds null where survival is 0 or 1
 * Source: Kaplan and Meier (1958), J. Amer. Statist. Assoc. 53, 457-481; Greenwood (1926); Kalbfleisch and Prentice (1980),
 * section 1.3, for the bounds. Variant: at risk entry < x <= exit; at one mileage failures come before lives seen last.
 * Edges: no failures give no points; with late entry survival may fall to 0 early, and stays there.
 * Errors: as {@link requireLives}; throws on a confidence outside 0 to 1.
 * @example estimateKaplanMeier([{ entry: 0, exit: 5, event: true, count: 1 }, { entry: 0, exit: 6, event: false, count: 1 }], 0.95) // one point, survival 0.5, se 0.3536
 */
export function estimateKaplanMeier(
  lives: readonly ObservedLife[],
  confidence: number,
  table = tabulateLives(lives),
): SurvivalPoint[] {
  requireLives('estimateKaplanMeier', lives);
  const z = normalWidth(confidence);
  let survival = 1;
  let greenwood = 0;
  return Array.from(table.x, (x, j) => {
    const atRisk = table.atRisk[j] ?? 0;
    const events = table.events[j] ?? 0;
    survival *= (atRisk - events) / atRisk;
    greenwood += events / (atRisk * (atRisk - events));
    const point = { x, atRisk, events, censored: table.censored[j] ?? 0, survival };
    if (survival <= 0 || survival >= 1) return { ...point, se: null, low: null, high: null };
    const width = (z * Math.sqrt(greenwood)) / Math.log(survival);
    return {
      ...point,
      se: survival * Math.sqrt(greenwood),
      low: survival ** Math.exp(-width),
      high: survival ** Math.exp(width),
    };
  });
}
