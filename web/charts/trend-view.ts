import type { TrendReply } from '#server/contract/analysis.ts';

/** A series of any kind with its statistics, in the order of x. */
export interface TrendView {
  x: readonly number[];
  y: readonly number[];
  /** names of the columns, with their units where they have some */
  xName: string;
  yName: string;
  reply: TrendReply;
}

export function viewTrend(view: TrendView): TrendView {
  const order = view.x.map((_, i) => i).sort((a, b) => (view.x[a] ?? 0) - (view.x[b] ?? 0) || a - b);
  return { ...view, x: order.map((i) => view.x[i] ?? 0), y: order.map((i) => view.y[i] ?? 0) };
}

export interface Dot {
  x: number;
  y: number;
  /** where it stands for several: 10 and 90 % of them */
  low: number;
  high: number;
  n: number;
}

/** More dots than this would be a blot, and slow. */
export const mostDots = 1500;
const bins = 400;

/** The points as dots; of many, the medians of runs of as many values, each with where 80 % of its values lie. */
export function thinPoints({ x, y }: Pick<TrendView, 'x' | 'y'>): Dot[] {
  const n = x.length;
  if (n <= mostDots)
    return x.map((one, i) => ({ x: one, y: y[i] ?? 0, low: y[i] ?? 0, high: y[i] ?? 0, n: 1 }));
  return Array.from({ length: bins }, (_, bin) => {
    const [from, to] = [Math.floor((bin * n) / bins), Math.floor(((bin + 1) * n) / bins)];
    const values = y.slice(from, to).toSorted((a, b) => a - b);
    const at = (share: number) => values[Math.round(share * (values.length - 1))] ?? 0;
    return {
      x: x[Math.floor((from + to - 1) / 2)] ?? 0,
      y: at(0.5),
      low: at(0.1),
      high: at(0.9),
      n: to - from,
    };
  });
}

/** The value in the middle of a sorted list, as a median has it. */
export const medianOf = (values: readonly number[]): number => {
  const sorted = values.toSorted((a, b) => a - b);
  const half = (sorted.length - 1) / 2;
  return ((sorted[Math.floor(half)] ?? 0) + (sorted[Math.ceil(half)] ?? 0)) / 2;
};

/** A figure of any unit, to five digits. */
export const sayFigure = (value: number): string => {
  if (value === 0) return '0';
  const size = Math.abs(value);
  if (size >= 1e9 || size < 1e-4) return value.toExponential(3).replace('-', '−').replace('e−', 'e-');
  const rounded = Number(value.toPrecision(5));
  return rounded.toLocaleString('en-GB', { maximumSignificantDigits: 5 }).replace('-', '−');
};

const mostDecimals = 6;

/** Figures of one sentence with as many decimals: so many digits for the largest. */
export function sayAlike(values: readonly number[], digits = 3): string[] {
  const most = Math.max(...values.map(Math.abs));
  const decimals = digits - 1 - Math.floor(Math.log10(most));
  if (!(most > 0) || most >= 1e9 || decimals > mostDecimals)
    return values.map((value) => sayFigure(Number(value.toPrecision(digits))));
  const step = 10 ** -decimals;
  const format = {
    minimumFractionDigits: Math.max(0, decimals),
    maximumFractionDigits: Math.max(0, decimals),
  };
  return values.map((value) =>
    (Math.round(value / step) * step || 0).toLocaleString('en-GB', format).replace('-', '−'),
  );
}

/** A chance in a sentence. */
export const sayP = (p: number): string =>
  p < 0.0001 ? 'p below 0.0001' : `p = ${sayFigure(Number(p.toPrecision(2)))}`;
