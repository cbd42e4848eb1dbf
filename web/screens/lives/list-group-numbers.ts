import type { LivesGroup } from '#server/contract/lives.ts';
import { plainUse } from '#web/charts/list-survival-numbers.ts';
import type { NumbersTable } from '#web/charts/numbers.ts';
import type { UseAxis } from '#web/charts/use-axis.ts';
import { noFigure } from '#web/format/format-number.ts';

const listTitles = (unit: string): string[] => [
  'converters',
  'failed',
  'first seen with mileage',
  `watched, ${unit}`,
  `median, ${unit}`,
  'Weibull shape',
  'shape low',
  'shape high',
  `Weibull B10, ${unit}`,
  `B10 low, ${unit}`,
  `B10 high, ${unit}`,
  `Weibull B50, ${unit}`,
  `B50 low, ${unit}`,
  `B50 high, ${unit}`,
  `lognormal B10, ${unit}`,
  `lognormal B10 low, ${unit}`,
  `lognormal B10 high, ${unit}`,
  `lognormal B50, ${unit}`,
  `lognormal B50 low, ${unit}`,
  `lognormal B50 high, ${unit}`,
];

/** All figures of the groups, of both fits, for a table to keep; a file has no caption, so each column says its unit. */
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
      ...listTitles(axis.unit).map((title) => ({ title, kind: 'figure' as const })),
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
