import { setAsideWords } from '#server/contract/set-aside-words.ts';
import { formatDate } from '#web/format/format-date.ts';
import { toReaderDistance } from '#web/format/format-km.ts';
import { formatTenths, formatWhole, noFigure } from '#web/format/format-number.ts';
import { temperatureUnit, toReaderTemperature } from '#web/format/format-temperature.ts';
import type { Units } from '#web/format/units.ts';
import type { KmRange, MileageView } from './mileage-view.ts';
import type { NumbersTable } from './numbers.ts';
import { sayBand } from './say-band.ts';

const figure = (title: string) => ({ title, kind: 'figure' as const });
const word = (title: string) => ({ title, kind: 'word' as const });

/** Everything that the mileage chart draws within the range shown. */
export function listMileageNumbers(view: MileageView, range: KmRange, units: Units): NumbersTable[] {
  return [
    listFits(view, units),
    listForecast(view, range, units),
    listStretches(view, range, units),
    listSetAside(view, range, units),
  ].filter((table) => table.rows.length > 0);
}

const odometer = (km: number, units: Units): string => formatWhole(toReaderDistance(km, units));
const isIn = (range: KmRange) => (one: { odometer_km: number }) =>
  one.odometer_km >= range.fromKm && one.odometer_km <= range.toKm;

function listFits(view: MileageView, units: Units): NumbersTable {
  const per = toReaderDistance(1, units);
  const span = (low: number, high: number, digits: (value: number) => string) =>
    `${digits(low)} to ${digits(high)}`;
  return {
    caption: 'Baseline, onset and drift, with 95 % intervals',
    columns: [
      word('series'),
      figure('life'),
      figure('baseline rpm'),
      word('interval'),
      figure(`onset ${units.distance}`),
      word('interval '),
      figure(`drift rpm per 1,000 ${units.distance}`),
      word('interval  '),
    ],
    rows: view.series.series.flatMap((band) =>
      band.fits.map((fit) => {
        const { baseline_rpm: base, onset_km: onset, drift_rpm_per_1000km: drift } = fit;
        return [
          sayBand(band),
          String(fit.life),
          formatTenths(base.estimate),
          span(base.low, base.high, formatTenths),
          onset === null ? noFigure : odometer(onset.estimate, units),
          onset === null ? noFigure : span(onset.low, onset.high, (km) => odometer(km, units)),
          drift === null ? noFigure : formatTenths(drift.estimate / per),
          drift === null ? noFigure : span(drift.low / per, drift.high / per, formatTenths),
        ];
      }),
    ),
  };
}

function listForecast(view: MileageView, range: KmRange, units: Units): NumbersTable {
  return {
    caption: `Forecast of slip at the reference point, rpm; limit ${formatWhole(view.series.limit_rpm)} rpm`,
    columns: [
      figure(`odometer ${units.distance}`),
      ...['2.5 %', '10 %', '25 %', '50 %', '75 %', '90 %', '97.5 %'].map(figure),
    ],
    rows: (view.series.forecast?.points ?? [])
      .filter(isIn(range))
      .map((point) => [
        odometer(point.odometer_km, units),
        ...[point.p2_5, point.p10, point.p25, point.p50, point.p75, point.p90, point.p97_5].map(formatTenths),
      ]),
  };
}

function listStretches(view: MileageView, range: KmRange, units: Units): NumbersTable {
  return {
    caption: 'Stretches',
    columns: [
      word('series'),
      figure('life'),
      figure(`odometer ${units.distance}`),
      word('last reading'),
      figure('slip rpm'),
      figure('standard error'),
      figure('measured rpm'),
      figure('weight'),
      figure('command %'),
      figure(`fluid ${temperatureUnit(units)}`),
      figure('load %'),
    ],
    rows: view.series.series.flatMap((band) =>
      band.points
        .filter(isIn(range))
        .map((point) => [
          sayBand(band),
          String(point.life),
          odometer(point.odometer_km, units),
          formatDate(point.at),
          formatTenths(point.slip_rpm),
          formatTenths(point.spread_rpm),
          formatTenths(point.measured_rpm),
          formatWhole(point.weight),
          formatWhole(point.duty_pct),
          point.fluid_c === null ? noFigure : formatWhole(toReaderTemperature(point.fluid_c, units)),
          point.load_pct === null ? noFigure : formatWhole(point.load_pct),
        ]),
    ),
  };
}

function listSetAside(view: MileageView, range: KmRange, units: Units): NumbersTable {
  return {
    caption: 'Readings set aside',
    columns: [figure(`odometer ${units.distance}`), word('month'), word('reason'), figure('readings')],
    rows: view.series.set_aside
      .filter(isIn(range))
      .map((one) => [
        odometer(one.odometer_km, units),
        one.month,
        setAsideWords[one.reason],
        formatWhole(one.n),
      ]),
  };
}
