import type { Arc } from './trace-breaks.ts';

/** A kink at one place: its signed statistic z = v.y / |v|, in units of y times the root of the weight. */
export interface Kink {
  break: number;
  z: number;
  /** height of the kink: the change of slope there */
  change: number;
}

function kinkAt(arc: Arc, t: number): Kink {
  const length = Math.sqrt(Math.max(arc.aa - 2 * t * arc.ab + t * t * arc.bb, Number.MIN_VALUE));
  const product = arc.ay - t * arc.by;
  return { break: arc.from + t, z: product / length, change: product / length ** 2 };
}

/**
 * The strongest rise that a kink anywhere on the arcs explains.
 *
 * z(t) = (ay - t by) / sqrt(aa - 2 t ab + t^2 bb) is largest at an end of an arc or where
 * t = (by aa - ay ab) / (by ab - ay bb); the squared z is the fall of the residual sum of squares.
 *
 * @param arcs of {@link traceBreaks}
 * @returns the kink with the largest z; null where there are no arcs
 * Source: calculus on the arc, own work. Edges: of equal ones the first. Errors: none.
 * @example strongestRise([]) // null
 */
export function strongestRise(arcs: readonly Arc[]): Kink | null {
  let best: Kink | null = null;
  for (const arc of arcs) {
    const inner = (arc.by * arc.aa - arc.ay * arc.ab) / (arc.by * arc.ab - arc.ay * arc.bb);
    const places = inner > 0 && inner < arc.width ? [0, inner, arc.width] : [0, arc.width];
    for (const t of places) {
      const kink = kinkAt(arc, t);
      if (best === null || kink.z > best.z) best = kink;
    }
  }
  return best;
}

/**
 * Length of the path that the normed regressor v / |v| runs on the unit sphere, in radians.
 *
 * On one arc v moves in a plane, so its length is the angle between both ends: the atan2 of
 * width sqrt(aa bb - ab^2) and aa - width ab.
 *
 * @param arcs of {@link traceBreaks}
 * @returns length, radians; 0 where there are no arcs
 * Source: Hotelling (1939), Amer. J. Math. 61, 440-460, for what it is needed for; the sum over arcs is own work.
 * Edges, errors: none.
 * @example pathLength([]) // 0
 */
export function pathLength(arcs: readonly Arc[]): number {
  return arcs.reduce((sum, { width, aa, ab, bb }) => {
    return sum + Math.atan2(width * Math.sqrt(Math.max(0, aa * bb - ab * ab)), aa - width * ab);
  }, 0);
}

/**
 * Range of breaks at which z reaches a level: the confidence set of the break, filled to one interval.
 *
 * z(t) >= level where (by^2 - L^2 bb) t^2 - 2 (ay by - L^2 ab) t + (ay^2 - L^2 aa) >= 0 and ay - t by >= 0.
 *
 * @param arcs  of {@link traceBreaks}
 * @param level L, above 0, in the unit of z
 * @returns lowest and highest such break; null where there is none
 * Source: inversion of the likelihood ratio, roots in closed form. Edges: gaps inside are filled. Errors: none.
 * @example rangeOfBreaks([], 1) // null
 */
export function rangeOfBreaks(arcs: readonly Arc[], level: number): { low: number; high: number } | null {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const arc of arcs) {
    const a = arc.by ** 2 - level ** 2 * arc.bb;
    const half = arc.ay * arc.by - level ** 2 * arc.ab;
    const c = arc.ay ** 2 - level ** 2 * arc.aa;
    const root = Math.sqrt(Math.max(0, half ** 2 - a * c));
    for (const t of [0, arc.width, (half - root) / a, (half + root) / a]) {
      if (!(t >= 0 && t <= arc.width) || kinkAt(arc, t).z < level * (1 - 1e-9)) continue;
      low = Math.min(low, arc.from + t);
      high = Math.max(high, arc.from + t);
    }
  }
  return low <= high ? { low, high } : null;
}
