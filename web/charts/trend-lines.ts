import type { TrendReply } from '#server/contract/analysis.ts';
import { medianOf, type TrendView } from './trend-view.ts';

type Point = [number, number];

export interface TrendLine {
  id: 'theil_sen' | 'ols' | 'hinge' | 'level_shift';
  name: string;
  /** corners; null parts a line in two */
  points: (Point | [null, null])[];
  /** bounds at some x, where the line has them */
  band?: { x: number; low: number; high: number }[];
}

/** Each model that the answer has, as a line over the range of x. */
export function listTrendLines(view: TrendView): TrendLine[] {
  const [from = 0, to = 0] = [view.x[0], view.x.at(-1)];
  const { theil_sen, ols, hinge, level_shift } = view.reply;
  return [
    theil_sen && drawTheilSen(theil_sen, view, from, to),
    ols && {
      id: 'ols' as const,
      name: 'least squares',
      points: [from, to].map((x): Point => [x, ols.intercept + ols.slope * x]),
    },
    hinge && {
      id: 'hinge' as const,
      name: 'flat, then rising',
      points: drawHinge(hinge, from, to),
    },
    level_shift && {
      id: 'level_shift' as const,
      name: 'level shift',
      points: [
        [from, level_shift.before],
        [level_shift.last_before, level_shift.before],
        [null, null],
        [level_shift.first_after, level_shift.after],
        [to, level_shift.after],
      ] satisfies TrendLine['points'],
    },
  ].filter((one) => one !== null);
}

/** Bounds of the slope turn the line about the medians of x and y, through which it goes. */
function drawTheilSen(
  { slope, intercept, low, high }: NonNullable<TrendReply['theil_sen']>,
  { x: all }: TrendView,
  from: number,
  to: number,
): TrendLine {
  const middle = medianOf(all);
  const level = intercept + slope * middle;
  const band = [from, middle, to].map((x) => {
    const ends = [level + low * (x - middle), level + high * (x - middle)];
    return { x, low: Math.min(...ends), high: Math.max(...ends) };
  });
  return {
    id: 'theil_sen',
    name: 'Theil-Sen',
    points: [from, to].map((x): Point => [x, intercept + slope * x]),
    band,
  };
}

function drawHinge(
  { break: at, before, slope_after }: NonNullable<TrendReply['hinge']>,
  from: number,
  to: number,
): Point[] {
  if (at === null)
    return [
      [from, before],
      [to, before],
    ];
  return [
    [from, before],
    [at, before],
    [to, before + slope_after * (to - at)],
  ];
}
