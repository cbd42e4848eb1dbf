import type { FleetLivesReply, LifeFit, LivesGroup, LivesReply } from '#server/contract/lives.ts';
import { plainUse } from '#web/charts/list-survival-numbers.ts';
import type { NumbersTable } from '#web/charts/numbers.ts';
import type { UseAxis } from '#web/charts/use-axis.ts';
import { noFigure } from '#web/format/format-number.ts';
import { basisWords } from './lives-words.ts';

const word = (title: string) => ({ title, kind: 'word' as const });
const figure = (title: string) => ({ title, kind: 'figure' as const });
/** A file has no caption: its columns say the unit. */
const inUnit =
  ({ unit }: UseAxis) =>
  (title: string) =>
    figure(`${title}, ${unit}`);
const plain = (value: number | null | undefined): string =>
  value == null ? noFigure : String(Number(value.toPrecision(6)));

/** Failures of each group against what would be expected if all were alike. */
export const listTestNumbers = (
  { groups: tested, chisq, df, p }: NonNullable<LivesReply['logrank']>,
  groups: readonly LivesGroup[],
): NumbersTable => ({
  caption: `Log-rank test, chi-square ${plain(chisq)}, degrees of freedom ${df}, p ${plain(p)}`,
  columns: [word('group'), ...['failed', 'expected', 'times as often', 'chi-square', 'df', 'p'].map(figure)],
  rows: tested.map(({ name, observed, expected }, i) => [
    groups[i]?.name ?? name,
    ...[observed, expected, expected > 0 ? observed / expected : null, chisq, df, p].map(plain),
  ]),
});

/** Each mode of a group by itself. */
export function listModeNumbers({ name, weibull_by_mode: modes }: LivesGroup, axis: UseAxis): NumbersTable {
  const use = (x: number | undefined) => (x === undefined ? noFigure : plainUse(x, axis));
  return {
    caption: `Modes of ${name}, ${axis.unit}`,
    columns: [
      word('group'),
      word('mode'),
      figure('failed'),
      ...['B10', 'B10 low', 'B10 high'].map(inUnit(axis)),
      ...['shape', 'shape low', 'shape high'].map(figure),
    ],
    rows: modes.map(({ mode, events, weibull }) => [
      name,
      mode,
      String(events),
      ...[weibull?.b10.estimate, weibull?.b10.low, weibull?.b10.high].map(use),
      ...[weibull?.shape, weibull?.shape_low, weibull?.shape_high].map(plain),
    ]),
  };
}

/** The lives that the list reckons with. */
export function listFitNumbers(
  fits: FleetLivesReply['fits'],
  nameOf: (platform: string) => string,
  axis: UseAxis,
): NumbersTable {
  const use = (bounds: LifeFit['b10_km']) =>
    [bounds.estimate, bounds.low, bounds.high].map((x) => (x === null ? noFigure : plainUse(x, axis)));
  return {
    caption: `Lives of the list, ${axis.unit}`,
    columns: [
      word('platform'),
      word('name'),
      word('from'),
      figure('failures'),
      ...['B10', 'B10 low', 'B10 high', 'B50', 'B50 low', 'B50 high'].map(inUnit(axis)),
      figure('shape'),
      word('since'),
    ],
    rows: fits.map((fit) => [
      fit.platform,
      nameOf(fit.platform),
      basisWords[fit.basis],
      String(fit.failures),
      ...use(fit.b10_km),
      ...use(fit.b50_km),
      plain(fit.shape),
      fit.fitted_at,
    ]),
  };
}
