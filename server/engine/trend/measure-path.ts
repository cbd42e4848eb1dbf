import type { Arc } from './trace-breaks.ts';

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
 * @example measurePath([]) // 0
 */
export function measurePath(arcs: readonly Arc[]): number {
  return arcs.reduce((sum, { width, aa, ab, bb }) => {
    return sum + Math.atan2(width * Math.sqrt(Math.max(0, aa * bb - ab * ab)), aa - width * ab);
  }, 0);
}
