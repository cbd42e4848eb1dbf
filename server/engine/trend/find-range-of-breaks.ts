import { evaluateKink } from './evaluate-kink.ts';
import type { Arc } from './trace-breaks.ts';

/**
 * Range of breaks at which z reaches a level: the confidence set of the break, filled to one interval.
 *
 * z(t) >= level where (by^2 - L^2 bb) t^2 - 2 (ay by - L^2 ab) t + (ay^2 - L^2 aa) >= 0 and ay - t by >= 0.
 *
 * @param arcs  of {@link traceBreaks}
 * @param level L, above 0, in the unit of z
 * @returns lowest and highest such break; null where there is none
 * Source: inversion of the likelihood ratio, roots in closed form. Edges: gaps inside are filled. Errors: none.
 * @example findRangeOfBreaks([], 1) // null
 */
export function findRangeOfBreaks(arcs: readonly Arc[], level: number): { low: number; high: number } | null {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const arc of arcs) {
    const a = arc.by ** 2 - level ** 2 * arc.bb;
    const half = arc.ay * arc.by - level ** 2 * arc.ab;
    const c = arc.ay ** 2 - level ** 2 * arc.aa;
    const root = Math.sqrt(Math.max(0, half ** 2 - a * c));
    for (const t of [0, arc.width, (half - root) / a, (half + root) / a]) {
      if (!(t >= 0 && t <= arc.width) || evaluateKink(arc, t).z < level * (1 - 1e-9)) continue;
      low = Math.min(low, arc.from + t);
      high = Math.max(high, arc.from + t);
    }
  }
  return low <= high ? { low, high } : null;
}
