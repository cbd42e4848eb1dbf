/** A moment at which it is known where a vehicle stood, on its joined track. */
export interface TrackPoint {
  ms: number;
  km: number;
}

/**
 * Where a vehicle stood at a moment, on a straight line between the points around it; the last known mileage after the
 * last point, null before the first. Points may come in any order; one below an earlier one counts as that.
 */
export function placeOnTrack(points: readonly TrackPoint[], ms: number): number | null {
  const inOrder = [...points].sort((a, b) => a.ms - b.ms || a.km - b.km);
  let before: TrackPoint | null = null;
  let furthestKm = Number.NEGATIVE_INFINITY;
  for (const point of inOrder) {
    const km = Math.max(furthestKm, point.km);
    if (point.ms > ms) {
      if (before === null) return null;
      return before.km + ((km - before.km) * (ms - before.ms)) / (point.ms - before.ms);
    }
    furthestKm = km;
    before = { ms: point.ms, km };
  }
  return before?.km ?? null;
}
