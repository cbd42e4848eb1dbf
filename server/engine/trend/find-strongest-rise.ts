import { evaluateKink, type Kink } from './evaluate-kink.ts';
import type { Arc } from './trace-breaks.ts';

/**
 * The strongest rise that a kink anywhere on the arcs explains.
 *
 * z(t) = (ay - t by) / sqrt(aa - 2 t ab + t^2 bb) is largest at an end of an arc or where
 * t = (by aa - ay ab) / (by ab - ay bb); the squared z is the fall of the residual sum of squares.
 *
 * @param arcs of {@link traceBreaks}
 * @returns the kink with the largest z; null where there are no arcs
 * Source: calculus on the arc, own work. Edges: of equal ones the first. Errors: none.
 * @example findStrongestRise([]) // null
 */
export function findStrongestRise(arcs: readonly Arc[]): Kink | null {
  let best: Kink | null = null;
  for (const arc of arcs) {
    const inner = (arc.by * arc.aa - arc.ay * arc.ab) / (arc.by * arc.ab - arc.ay * arc.bb);
    const places = inner > 0 && inner < arc.width ? [0, inner, arc.width] : [0, arc.width];
    for (const t of places) {
      const kink = evaluateKink(arc, t);
      if (best === null || kink.z > best.z) best = kink;
    }
  }
  return best;
}
