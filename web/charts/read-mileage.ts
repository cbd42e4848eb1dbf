import type { BandSeries, SeriesPoint, VehicleSeries } from '#server/contract/vehicle.ts';
import { formatDate } from '#web/format/format-date.ts';
import { formatKm, formatOdometer } from '#web/format/format-km.ts';
import { formatTenths, formatWhole } from '#web/format/format-number.ts';
import { formatRpm } from '#web/format/format-rpm.ts';
import { formatTemperature } from '#web/format/format-temperature.ts';
import type { Units } from '#web/format/units.ts';
import { withUnit } from '#web/format/with-unit.ts';
import type { MileageView } from './mileage-view.ts';
import { sayBand } from './say-band.ts';

export interface MileageReadout {
  km: number;
  title: string;
  lines: readonly { name: string; value: string }[];
}

const z95 = 1.96;

export function nearestPoint(band: BandSeries, km: number): SeriesPoint | undefined {
  let nearest: SeriesPoint | undefined;
  for (const point of band.points)
    if (nearest === undefined || Math.abs(point.odometer_km - km) < Math.abs(nearest.odometer_km - km))
      nearest = point;
  return nearest;
}

/** The figures at a mileage: the nearest stretch, or the forecast beyond the last reading. */
export function readMileage(view: MileageView, km: number, units: Units): MileageReadout | null {
  const ahead = km > view.nowKm ? readForecast(view, km, units) : null;
  return ahead ?? readStretch(view, km, units);
}

function readStretch(view: MileageView, km: number, units: Units): MileageReadout | null {
  const point = nearestPoint(view.shown, km);
  if (point === undefined) return null;
  const spread = point.spread_rpm * z95;
  const margin = spread < 10 ? formatTenths(spread) : formatWhole(spread);
  const lines = [
    {
      name: view.isReference ? 'slip' : `slip, ${sayBand(view.shown)}`,
      value: withUnit(`${formatTenths(point.slip_rpm)} ± ${margin}`, 'rpm'),
    },
    { name: 'as measured', value: withUnit(formatTenths(point.measured_rpm), 'rpm') },
    { name: 'weight', value: `${formatWhole(point.weight)} readings` },
    { name: 'command', value: `${formatWhole(point.duty_pct)} %` },
  ];
  if (point.fluid_c !== null) lines.push({ name: 'fluid', value: formatTemperature(point.fluid_c, units) });
  if (point.load_pct !== null) lines.push({ name: 'load', value: `${formatWhole(point.load_pct)} %` });
  for (const strip of view.strips) {
    const near = nearestPoint(strip, point.odometer_km);
    if (near !== undefined && Math.abs(near.odometer_km - point.odometer_km) < 300 && strip !== view.shown)
      lines.push({ name: `at ${sayBand(strip)}`, value: formatRpm(near.slip_rpm) });
  }
  return {
    km: point.odometer_km,
    title: `${formatOdometer(point.odometer_km, units)} · ${formatDate(point.at)}`,
    lines,
  };
}

type ForecastPoint = NonNullable<VehicleSeries['forecast']>['points'][number];

function readForecast(view: MileageView, km: number, units: Units): MileageReadout | null {
  const points = view.series.forecast?.points ?? [];
  const after = points.findIndex((point) => point.odometer_km >= km);
  const high = points[after];
  const low = points[after - 1] ?? high;
  if (!view.isReference || high === undefined || low === undefined) return null;
  const share =
    high.odometer_km === low.odometer_km ? 0 : (km - low.odometer_km) / (high.odometer_km - low.odometer_km);
  const at = (key: keyof ForecastPoint) => low[key] + share * (high[key] - low[key]);
  const span = (from: keyof ForecastPoint, to: keyof ForecastPoint) =>
    `${formatWhole(at(from))} to ${withUnit(formatWhole(at(to)), 'rpm')}`;
  return {
    km,
    title: `in ${formatKm(km - view.nowKm, units)} · ${formatOdometer(km, units)}`,
    lines: [
      { name: 'expected slip', value: formatRpm(at('p50')) },
      { name: '50 %', value: span('p25', 'p75') },
      { name: '80 %', value: span('p10', 'p90') },
      { name: '95 %', value: span('p2_5', 'p97_5') },
    ],
  };
}
