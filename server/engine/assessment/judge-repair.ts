import { poolByPrecision } from '#server/engine/robust/pool-by-precision.ts';
import type { SeriesPoint } from './build-series.ts';

/** Slip is judged after so far, km, and so many stretches: what runs in has run in, and one odd stretch decides nothing. */
export const REPAIR_NEEDED_KM = 1_500;
const NEEDED_POINTS = 3;
/** 95 % of healthy vehicles lie below their usual slip plus so many spreads between vehicles. */
const HEALTHY_SIGMA = 1.645;
/** Normal quantile of a two-sided 95 % interval. */
const REACH = 1.96;

export interface RepairJudgement {
  /** `unclear`: the interval lies on both sides of the healthy bound, or nothing is known of healthy vehicles */
  state: 'too_early' | 'held' | 'not_held' | 'unclear';
  /** from the work to the last stretch; null where no stretch lies behind it */
  kmSince: number | null;
  /** mean with a 95 % interval; null while it is too early */
  slipRpm: { estimate: number; low: number; high: number } | null;
  /** usual healthy slip of the platform, and below what 95 % of healthy vehicles lie; null where not known */
  healthyRpm: { usual: number; high: number } | null;
}

/**
 * Whether slip after a repair is that of a healthy vehicle of the platform.
 *
 * Mean by precision of the stretches since the work, with the larger of its own standard error and that of the scatter
 * seen, sqrt(sum (y - mean)^2 / (n (n - 1))); held where the upper end of its 95 % interval is at most usual + 1.645
 * spread, not held where the lower end is above it.
 *
 * @param points  series at the reference point since the work, rpm, in order of km
 * @param workKm  mileage of the work
 * @param healthy usual healthy slip of the platform and its spread between vehicles, rpm; null where not known
 * @returns state with its figures
 * Source: interval against a tolerance bound, any textbook; 1,500 km and 3 stretches are our own choice.
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
  const { mean, se } = poolByPrecision(
    slips,
    points.map((point) => point.seRpm),
  );
  const n = slips.length;
  const squares = slips.reduce((sum, slip) => sum + (slip - mean) ** 2, 0);
  const reach = REACH * Math.max(se, Math.sqrt(squares / (n * (n - 1))));
  const slipRpm = { estimate: mean, low: mean - reach, high: mean + reach };
  if (healthyRpm === null) return { state: 'unclear', kmSince, slipRpm, healthyRpm };
  const state =
    slipRpm.low > healthyRpm.high ? 'not_held' : slipRpm.high <= healthyRpm.high ? 'held' : 'unclear';
  return { state, kmSince, slipRpm, healthyRpm };
}
