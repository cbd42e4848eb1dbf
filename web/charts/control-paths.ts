import type { TrendReply } from '#server/contract/analysis.ts';

export interface CusumPath {
  high: number[];
  low: number[];
  limit: number;
}

/** The sums of a CUSUM chart value by value, NIST/SEMATECH e-Handbook 6.3.2.3, with the baseline of the answer. */
export function traceCusum(
  y: readonly number[],
  { target, sd, k, h }: NonNullable<TrendReply['cusum']>,
): CusumPath {
  let [high, low] = [0, 0];
  const path: CusumPath = { high: [], low: [], limit: h * sd };
  for (const value of y) {
    high = Math.max(0, high + value - target - k * sd);
    low = Math.max(0, low + target - k * sd - value);
    path.high.push(high);
    path.low.push(low);
  }
  return path;
}

export interface EwmaPath {
  average: number[];
  /** half width of the limits at each value */
  reach: number[];
}

/** The averages of an EWMA chart value by value, the same 6.3.2.4, with the limits of each value. */
export function traceEwma(
  y: readonly number[],
  { target, sd, lambda, width }: NonNullable<TrendReply['ewma']>,
): EwmaPath {
  let last = target;
  const longRun = width * sd * Math.sqrt(lambda / (2 - lambda));
  return {
    average: y.map((value) => {
      last = lambda * value + (1 - lambda) * last;
      return last;
    }),
    reach: y.map((_, i) => longRun * Math.sqrt(1 - (1 - lambda) ** (2 * (i + 1)))),
  };
}

/** Places to draw of a long path: of each run its first, lowest and highest, so that no peak is lost. */
export function keepPeaks(values: readonly number[], most: number): number[] {
  if (values.length <= most) return values.map((_, i) => i);
  const runs = Math.floor(most / 3);
  const places = Array.from({ length: runs }, (_, run) => {
    const from = Math.floor((run * values.length) / runs);
    const to = Math.floor(((run + 1) * values.length) / runs);
    let [least, highest] = [from, from];
    for (let i = from; i < to; i++) {
      if ((values[i] ?? 0) < (values[least] ?? 0)) least = i;
      if ((values[i] ?? 0) > (values[highest] ?? 0)) highest = i;
    }
    return [from, least, highest];
  });
  return [...new Set([...places.flat(), values.length - 1])].sort((a, b) => a - b);
}
