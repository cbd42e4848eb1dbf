import { measureMedian } from '#server/engine/robust/measure-median.ts';
import { measureWeightedMad } from '#server/engine/robust/measure-weighted-mad.ts';
import type { SeriesPoint } from './build-series.ts';

/** Stretches on either side that are compared. */
const SIDE = 4;
/** A fall is at least this large, rpm, and this many times the ordinary spread. */
const LEAST_RPM = 25;
const LEAST_SIGMA = 5;
/** After the fall, slip is back within this many spreads of the usual healthy slip. */
const HEALTHY_SIGMA = 3;

/**
 * A fall of slip back to healthy within one life: a converter may have been replaced without report.
 *
 * Median of 4 stretches before against 4 after; the largest fall counts where it is at least 25 rpm, at least 5
 * times the ordinary spread of successive stretches, and ends within 3 spreads of the usual healthy slip.
 *
 * @param points   series at the reference point of one life, in order of km
 * @param baseline usual healthy slip of the platform and its spread, rpm
 * @returns index of the first point after the fall, or null
 * Source: two-sample window, own choice of limits. Edges: fewer than 8 points give null. Errors: none.
 * @example findFallBack([], { baselineRpm: 15, baselineSd: 5 }) // null
 */
export function findFallBack(
  points: readonly SeriesPoint[],
  baseline: { baselineRpm: number; baselineSd: number },
): number | null {
  const slips = points.map((point) => point.slipRpm);
  const ordinary = Math.max(
    2,
    measureWeightedMad(slips.slice(1).map((slip, i) => slip - (slips[i] ?? slip))) / Math.SQRT2,
  );
  const healthy = baseline.baselineRpm + HEALTHY_SIGMA * baseline.baselineSd;
  let found: { index: number; fall: number } | null = null;
  for (let i = SIDE; i + SIDE <= slips.length; i++) {
    const after = measureMedian(slips.slice(i, i + SIDE));
    const fall = measureMedian(slips.slice(i - SIDE, i)) - after;
    const here = (slips[i - 1] ?? 0) - (slips[i] ?? 0);
    if (fall < LEAST_RPM || fall < LEAST_SIGMA * ordinary || after > healthy || here < fall / 2) continue;
    if (found === null || fall > found.fall) found = { index: i, fall };
  }
  return found?.index ?? null;
}
