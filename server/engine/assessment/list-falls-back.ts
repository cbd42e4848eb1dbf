import type { SeriesPoint } from './build-series.ts';
import { findFallBack } from './find-fall-back.ts';

/**
 * All falls of slip back to healthy within one life, each a converter that may have been replaced without report.
 *
 * The largest fall ({@link findFallBack}) parts the points; both parts are searched again.
 *
 * @param points   series at the reference point of one life, in order of km
 * @param baseline usual healthy slip of the platform and its spread, rpm
 * @returns indices of the first points after the falls, rising
 * Source: binary segmentation, Scott and Knott (1974), Biometrics 30, 507-512 (from memory). Edges: none gives none.
 * Errors: none.
 * @example listFallsBack([], { baselineRpm: 15, baselineSd: 5 }) // []
 */
export function listFallsBack(
  points: readonly SeriesPoint[],
  baseline: { baselineRpm: number; baselineSd: number },
): number[] {
  const at = findFallBack(points, baseline);
  if (at === null) return [];
  const after = listFallsBack(points.slice(at), baseline).map((index) => at + index);
  return [...listFallsBack(points.slice(0, at), baseline), at, ...after];
}
