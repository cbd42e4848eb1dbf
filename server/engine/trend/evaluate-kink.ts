import type { Arc } from './trace-breaks.ts';

/** A kink at one place: its signed statistic z = v.y / |v|, in units of y times the root of the weight. */
export interface Kink {
  break: number;
  z: number;
  /** height of the kink: the change of slope there */
  change: number;
}

/**
 * A kink at one place of an arc.
 *
 * z = v.y / |v|, change = v.y / v.v, with v.y = ay - t by and v.v = aa - 2 t ab + t^2 bb.
 *
 * @param arc of traceBreaks
 * @param t   place on it, from 0 to its width, unit of x
 * @returns break, z and change of slope
 * Source: least squares with one regressor more (Frisch and Waugh 1933, Econometrica 1, 387-401; from memory).
 * Edges: none within the width. Errors: none.
 * @example evaluateKink({ from: 3, width: 1, ay: 2, by: 0, aa: 4, ab: 0, bb: 1 }, 0) // break 3, z 1, change 0.5
 */
export function evaluateKink(arc: Arc, t: number): Kink {
  const length = Math.sqrt(Math.max(arc.aa - 2 * t * arc.ab + t * t * arc.bb, Number.MIN_VALUE));
  const product = arc.ay - t * arc.by;
  return { break: arc.from + t, z: product / length, change: product / length ** 2 };
}
