import type { ReplayRequest, RuleScore } from '#server/contract/replay.ts';
import { formatKmNumber } from '#web/format/format-km.ts';
import { formatMoney } from '#web/format/format-money.ts';
import { formatWhole, noFigure } from '#web/format/format-number.ts';
import type { Units } from '#web/format/units.ts';
import type { PlainTable } from '#web/format/write-csv.ts';
import { listFigures } from './list-figures.ts';

/** Whether two replays are of the same days, vehicles and horizon, so that their figures compare. */
export const isLike = (a: ReplayRequest, b: ReplayRequest): boolean =>
  a.from === b.from &&
  a.to === b.to &&
  a.horizon_km === b.horizon_km &&
  isSameSet(a.platforms, b.platforms) &&
  isSameSet(a.depots, b.depots);

/** Whether what came is judged by the same limits: else not even the failures of two replays are the same. */
export const hasSameLimits = ({ limits_rpm: a }: ReplayRequest, { limits_rpm: b }: ReplayRequest): boolean =>
  [...Object.keys(a), ...Object.keys(b)].every((platform) => a[platform] === b[platform]);

const isSameSet = (a: readonly string[], b: readonly string[]): boolean =>
  a.length === b.length && a.every((one) => b.includes(one));

/** What changed from one to the next, in the order of the table of figures. */
export function listChanges(from: RuleScore, to: RuleScore, units: Units): string[] {
  const counts = (['asked', 'right', 'early', 'needless', 'undecided', 'found', 'missed'] as const).map(
    (key) => signed(to[key] - from[key], formatWhole),
  );
  const notice =
    to.notice_km === null || from.notice_km === null
      ? noFigure
      : signed(to.notice_km.p50 - from.notice_km.p50, (km) => formatKmNumber(km, units));
  return [...counts, notice, signed(to.saved - from.saved, formatMoney)];
}

/** The list's figures of two replays as a table to keep. */
export function listBeside(
  [id, other]: readonly [number, number],
  [a, b]: readonly [RuleScore, RuleScore],
  units: Units,
): PlainTable {
  const [changes, others] = [listChanges(b, a, units), listFigures(b, units)];
  const figure = (title: string) => ({ title, kind: 'figure' as const });
  return {
    caption: 'Two replays',
    columns: [
      { title: 'the list', kind: 'word' },
      ...[`replay ${id}`, `replay ${other}`, 'difference'].map(figure),
    ],
    rows: listFigures(a, units).map(([name, value], i) => [
      name,
      value,
      others[i]?.[1] ?? '',
      changes[i] ?? '',
    ]),
  };
}

const signed = (value: number, format: (value: number) => string): string => {
  const text = format(value);
  return value > 0 && /[1-9]/.test(text) ? `+${text}` : text;
};
