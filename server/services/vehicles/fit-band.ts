import type { BandSeries } from '#server/contract/vehicle.ts';
import type { Series } from '#server/engine/assessment/build-series.ts';
import { preparePoints } from '#server/engine/assessment/prepare-points.ts';
import { isDeclined } from '#server/engine/declined.ts';
import { poolByPrecision } from '#server/engine/robust/pool-by-precision.ts';
import { fitFlatThenRising } from '#server/engine/trend/fit-flat-then-rising.ts';

/** p below which a band's own rise is drawn; the grade rests on the pooled evidence, not on this. */
const DRAWN_P = 0.01;

/** Flat-then-rising fit of one command band, for its strip below the main chart. */
export function fitBand(series: Series, life: number, fromKm: number): BandSeries['fits'] {
  // A few stretches far above the others would pull a fit by least squares: their pull is bounded as for the forecast.
  const { points } = preparePoints(
    series.points.filter((point) => point.life === life && point.km >= fromKm),
  );
  const first = points[0];
  const last = points.at(-1);
  if (first === undefined || last === undefined) return [];
  const fit = fitFlatThenRising({
    x: points.map((point) => point.km),
    y: points.map((point) => point.slipRpm),
    weight: points.map((point) => 1 / point.variance),
    scale: 'larger',
  });
  if (isDeclined(fit)) return [];
  const rises = fit.break !== null && fit.pAgainstFlat < DRAWN_P;
  const healthy = rises ? points.filter((point) => point.km <= (fit.break ?? point.km)) : points;
  const pooled = poolByPrecision(
    healthy.map((point) => point.slipRpm),
    healthy.map((point) => Math.sqrt(point.variance)),
  );
  const level = rises ? fit.before : pooled.mean;
  const from = Math.round(first.km);
  const to = Math.round(last.km);
  const reach = 1.96 * pooled.se;
  const tenth = (value: number) => Math.round(value * 10) / 10;
  const base = {
    life,
    from_km: from,
    to_km: to,
    baseline_rpm: { estimate: tenth(level), low: tenth(level - reach), high: tenth(level + reach) },
  };
  if (!rises || fit.break === null)
    return [
      {
        ...base,
        onset_km: null,
        drift_rpm_per_1000km: null,
        line: [from, to].map((km) => [km, tenth(level)]),
      },
    ];
  const slope = fit.slopeAfter * 1000;
  const error = 1.96 * (fit.seSlope ?? 0) * 1000;
  const end = tenth(level + fit.slopeAfter * (last.km - fit.break));
  return [
    {
      ...base,
      onset_km: {
        estimate: Math.round(fit.break),
        low: Math.round(fit.low ?? first.km),
        high: Math.round(fit.high ?? last.km),
      },
      drift_rpm_per_1000km: { estimate: slope, low: slope - error, high: slope + error },
      line: [
        [from, tenth(level)],
        [Math.round(fit.break), tenth(level)],
        [to, end],
      ],
    },
  ];
}
