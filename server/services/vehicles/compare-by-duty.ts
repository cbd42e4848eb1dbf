import type { VehicleSeries } from '#server/contract/vehicle.ts';
import type { Series, SeriesPoint } from '#server/engine/assessment/build-series.ts';
import { poolByPrecision } from '#server/engine/robust/pool-by-precision.ts';

/** Kilometres that stand for 'now'. */
const NOW_KM = 2_500;

/**
 * Slip against commanded duty in the healthy part of the life and in the last kilometres: for each command band the
 * mean by precision with a 95 % interval, at the mean duty of its stretches.
 */
export function compareByDuty(
  bands: readonly Series[],
  life: number,
  fromKm: number,
  onsetKm: number | null,
): VehicleSeries['by_duty'] {
  const points = bands.flatMap(({ points: own }) =>
    own.filter((point) => point.life === life && point.km >= fromKm),
  );
  const lastKm = points.reduce((last, point) => Math.max(last, point.km), Number.NEGATIVE_INFINITY);
  if (points.length === 0) return null;
  const healthyEnd = Math.min(onsetKm ?? Number.POSITIVE_INFINITY, lastKm - NOW_KM);
  const firstKm = points.reduce((first, point) => Math.min(first, point.km), Number.POSITIVE_INFINITY);
  const curve = (from: number, to: number) =>
    bands.flatMap(({ points: own }) => {
      const within = own.filter((point) => point.life === life && point.km >= from && point.km <= to);
      return within.length === 0 ? [] : [pool(within)];
    });
  return {
    healthy_km: [Math.round(firstKm), Math.round(Math.max(firstKm, healthyEnd))],
    now_km: [Math.round(Math.max(firstKm, lastKm - NOW_KM)), Math.round(lastKm)],
    healthy: healthyEnd > firstKm ? curve(firstKm, healthyEnd) : [],
    now: curve(lastKm - NOW_KM, lastKm),
  };
}

function pool(points: readonly SeriesPoint[]) {
  const errors = points.map((point) => point.seRpm);
  const pooled = (figure: (point: SeriesPoint) => number) => poolByPrecision(points.map(figure), errors);
  const { mean, se } = pooled((point) => point.slipRpm);
  const reach = 1.96 * se;
  const tenth = (value: number) => Math.round(value * 10) / 10;
  return {
    duty_pct: tenth(pooled((point) => point.dutyPct).mean),
    slip_rpm: tenth(mean),
    low: tenth(Math.max(0, mean - reach)),
    high: tenth(mean + reach),
    n: Math.round(points.reduce((sum, point) => sum + point.weight, 0)),
  };
}
