import { measureMedian } from '#server/engine/robust/measure-median.ts';
import { weightedQuantiles } from '#server/engine/smooth/weighted-quantiles.ts';

const LAST_POINTS = 3;

/**
 * How far slip of one life has come from its healthy level to the limit, with hindsight.
 *
 * (median of the last 3 points - healthy) / (limit - healthy), healthy = the lower of the platform's usual healthy slip and
 * the lower quartile of the life's points, so that a life first seen slipping is not taken for healthy.
 *
 * @param points   series at the reference point of one life, in order of km
 * @param usualRpm usual healthy slip of the platform, rpm
 * @param limitRpm limit, rpm
 * @returns share from 0, above 1 past the limit; null for fewer than 3 points
 * Source: own rule. Edges: slip below healthy is 0; a healthy level at the limit or above it counts as risen wholly.
 * Errors: none.
 * @example measureRise([{ slipRpm: 10 }, { slipRpm: 10 }, { slipRpm: 10 }], 12, 150) // 0
 */
export function measureRise(
  points: readonly { slipRpm: number }[],
  usualRpm: number,
  limitRpm: number,
): number | null {
  if (points.length < LAST_POINTS) return null;
  const slips = points.map(({ slipRpm }) => slipRpm);
  const [low = usualRpm] = weightedQuantiles(
    slips,
    slips.map(() => 1),
    [0.25],
  );
  const healthyRpm = Math.min(usualRpm, low);
  if (healthyRpm >= limitRpm) return 1;
  return Math.max(0, (measureMedian(slips.slice(-LAST_POINTS)) - healthyRpm) / (limitRpm - healthyRpm));
}
