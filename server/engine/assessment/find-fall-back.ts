import { measureMedian } from '#server/engine/robust/measure-median.ts';
import type { SeriesPoint } from './build-series.ts';

/** Stretches on either side that are compared. */
const SIDE = 4;
/** At the end of the series so few after the fall are enough, where each of them is healthy and the fall is this large. */
const LEAST_AFTER = 2;
const SURE_RPM = 50;
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
 * times its standard error 1.25 sqrt(sum se^2 / n^2) over both sides, n stretches each, and ends within 3 spreads of the
 * usual healthy slip. A stretch that the fall goes through midway belongs to neither side. Where fewer than 4 have come
 * after, 2 or 3 are enough if each is within these 3 spreads and the fall is at least 50 rpm: until then the list goes on
 * telling of a clutch that is no longer there.
 *
 * @param points   series at the reference point of one life, in order of km
 * @param baseline usual healthy slip of the platform and its spread, rpm
 * @returns index of the first point after the fall, or null
 * Source: two-sample window, own choice of limits. Edges: fewer than 6 points give null. Errors: none.
 * @example findFallBack([], { baselineRpm: 15, baselineSd: 5 }) // null
 */
export function findFallBack(
  points: readonly SeriesPoint[],
  baseline: { baselineRpm: number; baselineSd: number },
): number | null {
  const slips = points.map((point) => point.slipRpm);
  const healthy = baseline.baselineRpm + HEALTHY_SIGMA * baseline.baselineSd;
  let found: { index: number; fall: number } | null = null;
  for (let i = SIDE; i + LEAST_AFTER <= slips.length; i++) {
    // Through one stretch, or through a mixed one into the next.
    const here = (slips[i - 1] ?? 0) - Math.min(slips[i] ?? 0, slips[i + 1] ?? 0);
    // Most places fall by nothing, and need no medians.
    if (here < LEAST_RPM / 2) continue;
    const next = slips.slice(i, i + SIDE);
    const isShort = next.length < SIDE;
    const after = measureMedian(next);
    const fall = measureMedian(slips.slice(i - SIDE, i)) - after;
    if (fall < (isShort ? SURE_RPM : LEAST_RPM) || after > healthy || here < fall / 2) continue;
    const error = Math.hypot(errorOfMean(points.slice(i - SIDE, i)), errorOfMean(points.slice(i, i + SIDE)));
    if (fall < LEAST_SIGMA * MEDIAN_LOSS * error) continue;
    const isMixed = (slips[i] ?? after) - after > MIXED_SHARE * fall;
    const own = isMixed ? next.slice(1) : next;
    if (isShort && (own.length < LEAST_AFTER || own.some((slip) => slip > healthy))) continue;
    if (found === null || fall > found.fall) found = { index: isMixed ? i + 1 : i, fall };
  }
  return found?.index ?? null;
}

const errorOfMean = (points: readonly SeriesPoint[]): number =>
  Math.sqrt(points.reduce((sum, point) => sum + point.seRpm ** 2, 0)) / points.length;
