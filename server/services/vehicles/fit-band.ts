import type { BandSeries } from '#server/contract/vehicle.ts';
import type { Series } from '#server/engine/assessment/build-series.ts';
import { isDeclined } from '#server/engine/declined.ts';
import { fitFlatThenRising } from '#server/engine/trend/fit-flat-then-rising.ts';

/** p below which a band's own rise is drawn; the grade rests on the pooled evidence, not on this. */
const DRAWN_P = 0.01;

/** Flat-then-rising fit of one command band, for its strip below the main chart. */
export function fitBand(series: Series, life: number, fromKm: number): BandSeries['fits'] {
  const points = series.points.filter((point) => point.life === life && point.km >= fromKm);
  const first = points[0];
  const last = points.at(-1);
  if (first === undefined || last === undefined) return [];
  const fit = fitFlatThenRising({
    x: points.map((point) => point.km),
    y: points.map((point) => point.slipRpm),
    weight: points.map((point) => 1 / point.seRpm ** 2),
    scale: 'larger',
  });
  if (isDeclined(fit)) return [];
  const rises = fit.break !== null && fit.pAgainstFlat < DRAWN_P;
  const level = rises ? fit.before : mean(points);
  const from = Math.round(first.km);
  const to = Math.round(last.km);
  const reach = 1.96 / Math.sqrt(points.reduce((sum, point) => sum + 1 / point.seRpm ** 2, 0));
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

function mean(points: readonly { slipRpm: number; seRpm: number }[]): number {
  let information = 0;
  let sum = 0;
  for (const { slipRpm, seRpm } of points) {
    information += 1 / seRpm ** 2;
    sum += slipRpm / seRpm ** 2;
  }
  return sum / information;
}
