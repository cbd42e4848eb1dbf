import type { RoadTrace } from '#server/contract/test-steps.ts';
import { formatElapsed } from '#web/format/format-elapsed.ts';
import { formatTenths, formatWhole, noFigure } from '#web/format/format-number.ts';
import { temperatureUnit, toReaderTemperature } from '#web/format/format-temperature.ts';
import type { Units } from '#web/format/units.ts';
import type { NumbersTable } from './numbers.ts';

const figure = (title: string) => ({ title, kind: 'figure' as const });
const word = (title: string) => ({ title, kind: 'word' as const });

/** What was steady, what was set aside, and the rows that are drawn. */
export const listTraceNumbers = (trace: RoadTrace, units: Units): NumbersTable[] =>
  [listSteady(trace, units), listAside(trace), listRows(trace)].filter(({ rows }) => rows.length > 0);

/** The steady stretches against what is healthy at their commands. */
export const listTraceDutyNumbers = (trace: RoadTrace, units: Units): NumbersTable[] =>
  [listSteady(trace, units), listHealthy(trace)].filter(({ rows }) => rows.length > 0);

const listSteady = ({ steady, limit_rpm }: RoadTrace, units: Units): NumbersTable => ({
  caption: `Steady stretches; limit ${formatWhole(limit_rpm)} rpm`,
  columns: [
    word('from'),
    word('to'),
    figure('seconds'),
    figure('command %'),
    figure('slip rpm, median'),
    figure('change rpm per s'),
    figure(`fluid ${temperatureUnit(units)}`),
  ],
  rows: steady.map((one) => [
    formatElapsed(one.from_s),
    formatElapsed(one.to_s),
    formatWhole(one.to_s - one.from_s),
    formatTenths(one.duty_pct),
    formatTenths(one.slip_rpm),
    formatTenths(one.slope_rpm_per_s),
    one.fluid_c === null ? noFigure : formatWhole(toReaderTemperature(one.fluid_c, units)),
  ]),
});

const listAside = ({ set_aside }: RoadTrace): NumbersTable => ({
  caption: 'Set aside',
  columns: [word('from'), word('to'), figure('seconds'), word('reason')],
  rows: set_aside.map(({ from_s, to_s, says }) => [
    formatElapsed(from_s),
    formatElapsed(to_s),
    formatTenths(to_s - from_s),
    says,
  ]),
});

const listHealthy = ({ healthy }: RoadTrace): NumbersTable => ({
  caption: 'Slip of healthy vehicles of the platform, rpm; 95 % of them lie between low and high',
  columns: [figure('command %'), figure('low'), figure('usual'), figure('high')],
  rows: healthy.map((one) => [
    formatTenths(one.duty_pct),
    formatTenths(one.low_rpm),
    formatTenths(one.usual_rpm),
    formatTenths(one.high_rpm),
  ]),
});

const listRows = ({ seconds, slip_rpm, duty_pct, rows }: RoadTrace): NumbersTable => ({
  caption: seconds.length < rows ? `Rows drawn, of ${formatWhole(rows)}` : 'Rows',
  columns: [figure('seconds'), figure('slip rpm'), figure('command %')],
  rows: seconds.map((at, i) => {
    const [slip, duty] = [slip_rpm[i], duty_pct[i]];
    return [
      at.toFixed(2),
      slip == null ? noFigure : formatTenths(slip),
      duty == null ? noFigure : formatTenths(duty),
    ];
  }),
});
