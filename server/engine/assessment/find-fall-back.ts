import { measureMedian } from '#server/engine/robust/measure-median.ts';
import type { SeriesPoint } from './build-series.ts';

/** Stretches on either side that are compared. */
const SIDE = 4;
/** A fall is at least this large, rpm, and this many of its standard errors. */
const LEAST_RPM = 25;
const LEAST_SIGMA = 5;
/** Standard error of a median of normal values against that of their mean, sqrt(pi / 2). */
const MEDIAN_LOSS = 1.25;
/** The stretch in which the change was made holds readings of both converters: so high a share of the fall is mixed. */
const MIXED_SHARE = 0.25;
/** After the fall, slip is back within this many spreads of the usual healthy slip. */
const HEALTHY_SIGMA = 3;

/**
 * A fall of slip back to healthy within one life: a converter may have been replaced without report.
 *
 * Median of 4 stretches before against 4 after; the largest fall counts where it is at least 25 rpm, at least 5
 * times its standard error 1.25 sqrt(sum se^2) / 4 over both sides, and ends within 3 spreads of the usual healthy
 * slip. A stretch that the fall goes through midway belongs to neither side.
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
  const healthy = baseline.baselineRpm + HEALTHY_SIGMA * baseline.baselineSd;
  let found: { index: number; fall: number } | null = null;
  for (let i = SIDE; i + SIDE <= slips.length; i++) {
    // Through one stretch, or through a mixed one into the next.
    const here = (slips[i - 1] ?? 0) - Math.min(slips[i] ?? 0, slips[i + 1] ?? 0);
    // Most places fall by nothing, and need no medians.
    if (here < LEAST_RPM / 2) continue;
    const after = measureMedian(slips.slice(i, i + SIDE));
    const fall = measureMedian(slips.slice(i - SIDE, i)) - after;
    if (fall < LEAST_RPM || after > healthy || here < fall / 2) continue;
    const variance = points.slice(i - SIDE, i + SIDE).reduce((sum, point) => sum + point.seRpm ** 2, 0);
    if (fall < (LEAST_SIGMA * MEDIAN_LOSS * Math.sqrt(variance)) / SIDE) continue;
    const isMixed = (slips[i] ?? after) - after > MIXED_SHARE * fall;
    if (found === null || fall > found.fall) found = { index: isMixed ? i + 1 : i, fall };
  }
  return found?.index ?? null;
}
