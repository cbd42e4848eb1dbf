import { LAST_POINTS } from '#server/engine/wear/settle-cases.ts';
import type { WearCase } from '#server/engine/wear/wear-model.ts';
import type { SeriesPoint } from './build-series.ts';
import { meanPath } from './mean-path.ts';

/** Even steps along the life. */
const STEPS = 40;

/**
 * Line of the fit through the life of a clutch: its mean path ({@link meanPath}), bent over the last 5 points to where slip
 * stands now, for there the fan begins.
 *
 * @param cases    of the clutch, weights summing to 1
 * @param points   that they were fitted to, in order of km, at least one
 * @param limitRpm limit, rpm
 * @param onsetKm  where the rise began, km; null without one
 * @param levelRpm slip now, rpm
 * @returns odometer, km, and slip, rpm, in order of km: even steps, and the corners beside
 * Source: own drawing of the posterior mean. Edges: a lone point gives the level at it. Errors: none.
 * @example drawFit([flatCase], points, 150, null, 20).at(-1)[1] // 20
 */
export function drawFit(
  cases: readonly WearCase[],
  points: readonly SeriesPoint[],
  limitRpm: number,
  onsetKm: number | null,
  levelRpm: number,
): [km: number, slipRpm: number][] {
  const fromKm = points[0]?.km ?? 0;
  const toKm = points.at(-1)?.km ?? fromKm;
  const bentKm = points.at(-LAST_POINTS)?.km ?? fromKm;
  const bentRpm = levelRpm - meanPath(cases, toKm, limitRpm);
  const kms = Array.from({ length: STEPS + 1 }, (_, i) => fromKm + ((toKm - fromKm) * i) / STEPS);
  for (const km of [onsetKm ?? fromKm, bentKm]) if (km > fromKm && km < toKm) kms.push(km);
  return kms
    .sort((a, b) => a - b)
    .map((km) => {
      const bent = toKm > bentKm ? Math.max(0, (km - bentKm) / (toKm - bentKm)) : 1;
      return [km, meanPath(cases, km, limitRpm) + bent * bentRpm];
    });
}
