/** Band number of the series at the reference point, which takes in all command bands. */
export const REFERENCE_BAND = -1;

/**
 * Command band of a commanded duty.
 *
 * Band i holds edges[i] <= duty < edges[i + 1]; the last band holds its upper edge too.
 *
 * @param dutyPct commanded duty, %
 * @param edgesPct rising band edges, %
 * @returns band number from 0, or null outside all bands
 * Source: own definition. Edges: fewer than two of them make no band. Errors: none.
 * @example bandOf(85, [40, 55, 70, 85, 100]) // 3
 */
export function bandOf(dutyPct: number, edgesPct: readonly number[]): number | null {
  const last = edgesPct.length - 1;
  for (let i = 0; i < last; i++) {
    const low = edgesPct[i] ?? Number.NaN;
    const high = edgesPct[i + 1] ?? Number.NaN;
    if (dutyPct >= low && (dutyPct < high || (i === last - 1 && dutyPct <= high))) return i;
  }
  return null;
}
