import type { TrendReply } from '#server/contract/analysis.ts';
import type { NumbersTable } from '#web/charts/numbers.ts';
import { sayAlike, sayFigure, sayP } from '#web/charts/trend-view.ts';
import { sayChance } from '#web/format/say-chance.ts';

type Part = keyof TrendReply['declined'];

export const trendNames: Record<Part, string> = {
  ols: 'Least squares',
  theil_sen: 'Theil-Sen',
  mann_kendall: 'Mann-Kendall',
  hamed_rao: 'Mann-Kendall, correlated values (Hamed-Rao)',
  hinge: 'Flat, then rising',
  level_shift: 'Level shift',
  cusum: 'CUSUM',
  ewma: 'EWMA',
};

type Line = [figure: string, value: number | string | null, words: string];

const listLines = (reply: TrendReply): Partial<Record<Part, Line[]>> => {
  const {
    theil_sen: sen,
    ols,
    mann_kendall: mk,
    hamed_rao: hr,
    hinge,
    level_shift: shift,
    cusum,
    ewma,
  } = reply;
  return {
    ...(sen && {
      theil_sen: [
        ['slope', sen.slope, 'median of the slopes of all pairs, y for one x'],
        ['slope, low', sen.low, `bound of ${sayShare(sen.confidence)}`],
        ['slope, high', sen.high, `bound of ${sayShare(sen.confidence)}`],
        ['intercept', sen.intercept, 'value at x = 0'],
      ],
    }),
    ...(ols && {
      ols: [
        ['slope', ols.slope, 'y for one x'],
        ['error of the slope', ols.se_slope, 'standard error, for independent values'],
        ['intercept', ols.intercept, 'value at x = 0'],
        ['error of the intercept', ols.se_intercept, 'standard error'],
        ['R2', ols.r2, 'share of the variance that the line takes up'],
      ],
    }),
    ...(mk && {
      mann_kendall: [
        ['S', mk.s, 'pairs that rise less pairs that fall'],
        ['variance of S', mk.var_s, 'corrected for ties'],
        ['Z', mk.z, 'standard score'],
        ['p', mk.p, 'chance of such a trend where there is none, two-sided'],
        ['tau-b', mk.tau, '-1 falls throughout, 1 rises throughout'],
      ],
    }),
    ...(hr && {
      hamed_rao: [
        ['variance of S', hr.var_s, 'widened where neighbouring values go together'],
        ['Z', hr.z, 'standard score'],
        ['p', hr.p, 'two-sided'],
      ],
    }),
    ...(hinge && {
      hinge: [
        ['break', hinge.break, 'x where the rise begins'],
        ['break, low', hinge.low, 'earliest; none where it is open to the start'],
        ['break, high', hinge.high, 'latest; none where it is open to the end'],
        ['level before', hinge.before, 'y'],
        ['slope after', hinge.slope_after, 'y for one x'],
        ['p against flat', hinge.p_against_flat, 'upper bound; the search is allowed for'],
      ],
    }),
    ...(shift && {
      level_shift: [
        ['last before', shift.last_before, 'x'],
        ['first after', shift.first_after, 'x'],
        ['low', shift.low, 'where else it may be, from'],
        ['high', shift.high, 'to'],
        ['level before', shift.before, 'y'],
        ['level after', shift.after, 'y'],
        ['F', shift.f, 'against one level'],
        ['p', shift.p, 'the search is allowed for'],
        ['log ratio', shift.log_ratio, 'of a gradual drift to the shift; beyond 2 either way it is clear'],
        ['favours', shift.favours, 'drift, shift or neither'],
      ],
    }),
    ...(cusum && {
      cusum: [
        ['first alarm', cusum.first_alarm, 'x; none where it stays within'],
        ['upper sum', cusum.high, 'after the last value'],
        ['lower sum', cusum.low, 'after the last value'],
        ['baseline', cusum.target, 'level of the healthy start'],
        ['sd', cusum.sd, 'of one value about it'],
        ['k', cusum.k, 'allowance, sd'],
        ['h', cusum.h, 'limit, sd'],
      ],
    }),
    ...(ewma && {
      ewma: [
        ['first alarm', ewma.first_alarm, 'x; none where it stays within'],
        ['average', ewma.last, 'after the last value'],
        ['lambda', ewma.lambda, 'weight of the newest value'],
        ['width', ewma.width, 'of the limits, sd of the average'],
      ],
    }),
  };
};

const sayShare = (share: number): string => `${Number((share * 100).toPrecision(4))} %`;

const sayCell = (value: number | string | null): string =>
  value === null ? '–' : typeof value === 'string' ? value : sayFigure(value);

/** Every figure of the answer with what it means. */
export function listTrendFigures(reply: TrendReply): NumbersTable {
  const lines = listLines(reply);
  const parts = (Object.keys(trendNames) as Part[]).flatMap((part) =>
    (lines[part] ?? []).map((line) => [trendNames[part], line] as const),
  );
  return {
    caption: 'All figures',
    columns: [
      { title: 'statistic', kind: 'word' },
      { title: 'figure', kind: 'word' },
      { title: 'value', kind: 'figure' },
      { title: 'meaning', kind: 'word' },
    ],
    rows: parts.map(([part, [figure, value, words]]) => [part, figure, sayCell(value), words]),
  };
}

/** What can be said of the series, in sentences. */
export function sayTrend(reply: TrendReply, names: { x: string; y: string }): string[] {
  const { theil_sen: sen, mann_kendall: mk, hamed_rao: hr, hinge, level_shift: shift } = reply;
  const told: string[] = [];
  if (sen !== null) {
    const isOpen = sen.low < 0 && sen.high > 0;
    const way = isOpen ? 'No slope can be told from none' : sen.slope > 0 ? 'It rises' : 'It falls';
    const [slope, low, high] = sayAlike([sen.slope, sen.low, sen.high]);
    told.push(
      `${way}: ${slope} ${names.y} for one ${names.x} (Theil-Sen; ${sayShare(sen.confidence)}: ${low} to ${high}).`,
    );
  }
  if (mk !== null)
    told.push(
      `Chance alone would give such a trend ${sayChance(mk.p)} (Mann-Kendall, ${sayP(mk.p)})${hr === null ? '' : `, or ${sayChance(hr.p)} where neighbouring values go together (Hamed-Rao, ${sayP(hr.p)})`}.`,
    );
  if (hinge !== null && hinge.break !== null && hinge.p_against_flat < 0.05)
    told.push(
      `Flat and then rising fits better than flat: the rise begins near ${sayBreak(hinge.break, hinge.low, hinge.high)}.`,
    );
  if (shift !== null && shift.p < 0.05) told.push(sayShift(shift));
  return told;
}

function sayBreak(at: number, low: number | null, high: number | null): string {
  if (low === null || high === null) return sayFigure(at);
  const [middle, from, to] = sayAlike([at, low, high], 5);
  return `${middle}, between ${from} and ${to}`;
}

function sayShift(shift: NonNullable<TrendReply['level_shift']>): string {
  const [before, after] = sayAlike([shift.before, shift.after]);
  const step = `a step from ${before} to ${after} at ${sayFigure(shift.last_before)} to ${sayFigure(shift.first_after)}`;
  if (shift.favours === 'neither') return `A gradual drift and ${step} fit alike.`;
  return shift.favours === 'drift'
    ? `A gradual drift fits better than ${step}.`
    : `A step fits better than a gradual drift: ${step}.`;
}
