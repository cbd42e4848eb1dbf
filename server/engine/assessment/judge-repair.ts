import { measureMedian } from '#server/engine/robust/measure-median.ts';
import type { SeriesPoint } from './build-series.ts';

/** Slip is judged after so far, km, and so many stretches: what runs in has run in, and one odd stretch decides nothing. */
export const REPAIR_NEEDED_KM = 1_500;
const NEEDED_POINTS = 3;
/** 95 % of healthy vehicles lie below their usual slip plus so many spreads between vehicles. */
const HEALTHY_SIGMA = 1.645;
/** Normal quantile of a two-sided 95 % interval. */
const REACH = 1.96;
/** Standard error of a median of normal values against that of their mean, sqrt(pi / 2). */
const MEDIAN_LOSS = 1.25;
const MAD_TO_SD = 1.4826;

export interface RepairJudgement {
  /** `unclear`: the interval lies on both sides of the healthy bound, or nothing is known of healthy vehicles */
  state: 'too_early' | 'held' | 'not_held' | 'unclear';
  /** from the work to the last stretch; null where no stretch lies behind it */
  kmSince: number | null;
  /** median with a 95 % interval; null while it is too early */
  slipRpm: { estimate: number; low: number; high: number } | null;
  /** usual healthy slip of the platform, and below what 95 % of healthy vehicles lie; null where not known */
  healthyRpm: { usual: number; high: number } | null;
}

/**
 * Whether slip after a repair is that of a healthy vehicle of the platform.
 *
 * Median of the stretches since the work, which a stretch or two of glitches do not move, with the standard error of a
 * median, 1.25 s / sqrt(n), s the larger of the median standard error of the stretches and 1.4826 MAD of their scatter;
 * held where the upper end of its 95 % interval is at most usual + 1.645 spread, not held where the lower end is above it.
 *
 * @param points  series at the reference point since the work, rpm, in order of km
 * @param workKm  mileage of the work
 * @param healthy usual healthy slip of the platform and its spread between vehicles, rpm; null where not known
 * @returns state with its figures
 * Source: interval of a median against a tolerance bound, any textbook; 1,500 km and 3 stretches are our own choice.
 * Edges: fewer stretches or kilometres are too early. Errors: none.
 * @example judgeRepair([], 200_000, { baselineRpm: 14, baselineSd: 4 }).state // 'too_early'
 */
export function judgeRepair(
  points: readonly Pick<SeriesPoint, 'km' | 'slipRpm' | 'seRpm'>[],
  workKm: number,
  healthy: { baselineRpm: number; baselineSd: number } | null,
): RepairJudgement {
  const lastKm = points.at(-1)?.km ?? null;
  const kmSince = lastKm === null ? null : Math.max(0, lastKm - workKm);
  const healthyRpm =
    healthy === null
      ? null
      : { usual: healthy.baselineRpm, high: healthy.baselineRpm + HEALTHY_SIGMA * healthy.baselineSd };
  if (kmSince === null || kmSince < REPAIR_NEEDED_KM || points.length < NEEDED_POINTS)
    return { state: 'too_early', kmSince, slipRpm: null, healthyRpm };
  const slips = points.map((point) => point.slipRpm);
  const median = measureMedian(slips);
  const scatter = MAD_TO_SD * measureMedian(slips.map((slip) => Math.abs(slip - median)));
  const spread = Math.max(scatter, measureMedian(points.map((point) => point.seRpm)));
  const reach = (REACH * MEDIAN_LOSS * spread) / Math.sqrt(slips.length);
  const slipRpm = { estimate: median, low: median - reach, high: median + reach };
  if (healthyRpm === null) return { state: 'unclear', kmSince, slipRpm, healthyRpm };
  const state =
    slipRpm.low > healthyRpm.high ? 'not_held' : slipRpm.high <= healthyRpm.high ? 'held' : 'unclear';
  return { state, kmSince, slipRpm, healthyRpm };
}
