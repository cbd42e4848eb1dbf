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
  let best: { arc: Arc; t: number } | null = null;
  let most = Number.NaN;
  for (const arc of arcs) {
    const inner = (arc.by * arc.aa - arc.ay * arc.ab) / (arc.by * arc.ab - arc.ay * arc.bb);
    const hasInner = inner > 0 && inner < arc.width;
    // Place by place, and only the best written down: this runs for every stretch of a vehicle on every day of a replay.
    for (let place = 0; place < 3; place++) {
      if (place === 1 && !hasInner) continue;
      const t = place === 0 ? 0 : place === 1 ? inner : arc.width;
      const { z } = evaluateKink(arc, t);
      if (best !== null && !(z > most)) continue;
      best = { arc, t };
      most = z;
    }
  }
  return best === null ? null : evaluateKink(best.arc, best.t);
}
