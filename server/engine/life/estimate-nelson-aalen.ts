import type { ObservedLife } from './life-model.ts';
import { requireLives } from './require-lives.ts';
import { tabulateLives } from './tabulate-lives.ts';

/**
 * Nelson-Aalen estimate of the cumulative hazard, with late entry.
 *
 * H(x) = sum over failures at u <= x of d / n; se = sqrt(sum d / n^2).
 *
 * @param lives in any order
 * @param table of the lives, where it is at hand
 * @returns a point at each mileage where lives failed
 * Source: Nelson (1972), Technometrics 14, 945-966; Aalen (1978), Annals of Statistics 6, 701-726; Klein and Moeschberger
 * (2003), eq. 4.2.3 and 4.2.4 (from memory). Variant: at risk entry < x <= exit. Edges: no failures give no points.
 * Errors: as {@link requireLives}.
 * @example estimateNelsonAalen([{ entry: 0, exit: 5, event: true, count: 1 }, { entry: 0, exit: 6, event: false, count: 1 }]) // one point, cumulativeHazard 0.5, se 0.5
 */
export function estimateNelsonAalen(
  lives: readonly ObservedLife[],
  table = tabulateLives(lives),
): { x: number; cumulativeHazard: number; se: number }[] {
  requireLives('estimateNelsonAalen', lives);
  const { x, atRisk, events } = table;
  let cumulativeHazard = 0;
  let variance = 0;
  return Array.from(x, (one, j) => {
    const share = (events[j] ?? 0) / (atRisk[j] ?? 1);
    cumulativeHazard += share;
    variance += share / (atRisk[j] ?? 1);
    return { x: one, cumulativeHazard, se: Math.sqrt(variance) };
  });
}
