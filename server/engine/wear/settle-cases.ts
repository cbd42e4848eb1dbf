import { slipAt } from './slip-at.ts';
import type { WearCase, WearPoint } from './wear-model.ts';

/** The last so many points tell where slip stands now. */
export const LAST_POINTS = 8;
/** How far a clutch may stand from its path: this share of its rise, and at least so much. Own choice. */
const STRAY_SHARE = 0.2;
const STRAY_LEAST_RPM = 2;

/**
 * Cases of wear set where the last points stand, for looking ahead.
 *
 * Linings break up unevenly: slip strays from any smooth path, and stays away for a while. The stray d of each case has
 * the prior N(0, (2 rpm + 0.2 rise)^2) and is seen in the last 8 points by their precision-weighted mean residual r
 * with variance v: d = r * p / (p + v), p its prior variance. The level moves by d; a drifting path is shifted along
 * the kilometres until it passes through that level now, so that its way left follows.
 *
 * @param cases    of one clutch, weights summing to 1
 * @param points   that they were fitted to, in order of km
 * @param limitRpm limit, rpm
 * @returns the cases, with level, its standard deviation and (drifting) onset as of now; not for telling the past
 * Source: local level beside a trend, Harvey (1989), Forecasting, Structural Time Series Models and the Kalman Filter,
 * section 2.3 (from memory), here with one update. Edges: no change, and a path that has not begun, stay as they are; a
 * level stays 1 rpm above healthy at least. Errors: none.
 * @example settleCases([flatCase], flatPoints, 150) // [flatCase]
 */
export function settleCases(
  cases: readonly WearCase[],
  points: readonly WearPoint[],
  limitRpm: number,
): WearCase[] {
  const nowKm = points.at(-1)?.km ?? Number.NEGATIVE_INFINITY;
  const recent = points.slice(-LAST_POINTS);
  const information = recent.reduce((sum, point) => sum + 1 / point.variance, 0);
  return cases.map((one) => {
    if (one.kind === 'flat' || one.onsetKm >= nowKm) return one;
    const residual = recent.reduce(
      (sum, point) => sum + (point.slipRpm - slipAt(one, point.km, limitRpm)) / point.variance / information,
      0,
    );
    const rise = Math.max(0, one.levelRpm - one.baselineRpm);
    const prior = (STRAY_LEAST_RPM + STRAY_SHARE * rise) ** 2;
    const share = prior / (prior + 1 / information);
    const levelRpm = Math.max(one.baselineRpm + 1, one.levelRpm + share * residual);
    const levelSd = Math.sqrt(one.levelSd ** 2 + share / information);
    if (one.kind === 'step') return { ...one, levelRpm, levelSd };
    const height = (levelRpm - one.baselineRpm) / (limitRpm - one.baselineRpm);
    return { ...one, levelRpm, levelSd, onsetKm: nowKm - one.spanKm * height ** (1 / one.power) };
  });
}
