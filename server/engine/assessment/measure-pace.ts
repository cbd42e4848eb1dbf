import type { SeriesPoint } from './build-series.ts';

const DAY_MS = 86_400_000;
const PACE_DAYS = 60;
/** Points less far apart say nothing of a pace. */
const LEAST_DAYS = 3;

/**
 * Pace of a vehicle: kilometres a day over the last 60 days of its points.
 *
 * (km_last - km_first) / (t_last - t_first) over the points of the 60 days before the last one, or before now where that is
 * earlier.
 *
 * @param points of one life, in order of km
 * @param nowMs  now, ms
 * @returns km a day, or null
 * Source: own definition. Edges: no points, and points within 3 days, give null. Errors: none.
 * @example measurePace([], 0) // null
 */
export function measurePace(points: readonly SeriesPoint[], nowMs: number): number | null {
  const last = points.at(-1);
  if (last === undefined) return null;
  const recent = points.filter((point) => point.atMs > Math.min(nowMs, last.atMs) - PACE_DAYS * DAY_MS);
  const first = recent[0];
  if (first === undefined || last.atMs - first.atMs < LEAST_DAYS * DAY_MS) return null;
  return (last.km - first.km) / ((last.atMs - first.atMs) / DAY_MS);
}
