/** So many stretches in a row at the limit or above: one may be chance. Own choice. */
const IN_A_ROW = 3;

/**
 * Where slip of one life reached its limit, with hindsight.
 *
 * The first of three successive stretches at the reference point that are at the limit or above it. Nobody can tell before the
 * third.
 *
 * @param points   series at the reference point of one life, in order of km
 * @param limitRpm limit, rpm
 * @returns that point, and the third; null where there is none
 * Source: own rule. Edges: fewer than three points never reach it. Errors: none.
 * @example findLimitReached([{ slipRpm: 160 }, { slipRpm: 150 }, { slipRpm: 170 }], 150) // the first, told on the third
 */
export function findLimitReached<P extends { slipRpm: number }>(
  points: readonly P[],
  limitRpm: number,
): { reached: P; told: P } | null {
  let row = 0;
  for (const [i, point] of points.entries()) {
    row = point.slipRpm >= limitRpm ? row + 1 : 0;
    const reached = points[i - IN_A_ROW + 1];
    if (row === IN_A_ROW && reached !== undefined) return { reached, told: point };
  }
  return null;
}
