import type { SortedPoints } from './require-points.ts';

/**
 * Points in order of x, and of y where x is equal.
 *
 * @param points in order of x, of requirePoints, with equal weights
 * @returns the same points; where x is equal, y rises
 * Source: own rule. Edges, errors: none.
 * @example orderPoints(requirePoints('f', { x: [1, 1, 0], y: [5, 4, 9] })).y // Float64Array [9, 4, 5]
 */
export function orderPoints(points: SortedPoints): SortedPoints {
  const { n, x } = points;
  const y = points.y.slice();
  for (let from = 0; from < n; ) {
    let to = from + 1;
    while (to < n && x[to] === x[from]) to++;
    if (to - from > 1) y.subarray(from, to).sort();
    from = to;
  }
  return { ...points, y };
}
