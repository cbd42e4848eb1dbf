import type { LivesGroup } from '#server/contract/lives.ts';
import { plainUse } from '#web/charts/list-survival-numbers.ts';
import type { NumbersTable } from '#web/charts/numbers.ts';
import type { UseAxis } from '#web/charts/use-axis.ts';
import { noFigure } from '#web/format/format-number.ts';

const figures = [
  'converters',
  'failed',
  'first seen with mileage',
  'watched',
  'median',
  'Weibull shape',
  'shape low',
  'shape high',
  'Weibull B10',
  'B10 low',
  'B10 high',
  'Weibull B50',
  'B50 low',
  'B50 high',
  'lognormal B10',
  'lognormal B10 low',
  'lognormal B10 high',
  'lognormal B50',
  'lognormal B50 low',
  'lognormal B50 high',
];

/** All figures of the groups, of both fits, for a table to keep. */
export function listGroupNumbers(groups: readonly LivesGroup[], axis: UseAxis): NumbersTable {
  const use = (x: number | null | undefined) => (x == null ? noFigure : plainUse(x, axis));
  const shape = (value: number | undefined) => (value === undefined ? noFigure : value.toPrecision(6));
  const all = (bounds: { estimate: number; low: number; high: number } | undefined) => [
    use(bounds?.estimate),
    use(bounds?.low),
    use(bounds?.high),
  ];
  return {
    caption: `Lives by group, ${axis.unit}`,
    columns: [
      { title: 'group', kind: 'word' },
      ...figures.map((title) => ({ title, kind: 'figure' as const })),
    ],
    rows: groups.map(({ name, n, events, late_entries, exposed, median, weibull, lognormal }) => [
      name,
      String(n),
      String(events),
      String(late_entries),
      use(exposed),
      use(median?.estimate),
      shape(weibull?.shape),
      shape(weibull?.shape_low),
      shape(weibull?.shape_high),
      ...all(weibull?.b10),
      ...all(weibull?.b50),
      ...all(lognormal?.b10),
      ...all(lognormal?.b50),
    ]),
  };
}
