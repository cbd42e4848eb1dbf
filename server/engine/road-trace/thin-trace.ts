/** Command is told apart from a steady one from here on, %. */
const DUTY_APART_PCT = 1;
/** Buckets are so much fewer with each try. */
const FEWER = 0.8;

/**
 * Rows of a trace that are enough to draw it: the extremes of each bucket.
 *
 * Rows are cut into buckets of equal count; of each, the rows of least and most slip are kept, and those of least and most
 * duty where these are more than 1 % apart; so are the first and last row, and each row given to be kept. Buckets are made
 * fewer until no more rows than asked are left.
 *
 * @param slipRpm slip of each row, rpm
 * @param dutyPct commanded duty of each row, %
 * @param most    rows to be left at the most; at least 8
 * @param keep    rows to keep whatever they hold, as those beside gaps; no more than half of `most`
 * @returns numbers of rows, rising
 * Source: minimum and maximum per bucket, as oscilloscopes draw; common practice, no source. Edges: all rows where they
 * are few enough. Errors: throws where `most` or `keep` is out of its bounds.
 * @example thinTrace([1, 2, 3], [80, 80, 80], 10) // [0, 1, 2]
 */
export function thinTrace(
  slipRpm: ArrayLike<number>,
  dutyPct: ArrayLike<number>,
  most: number,
  keep: readonly number[] = [],
): number[] {
  if (!(most >= 8)) throw new Error('thinTrace requires at least 8 rows to be left');
  if (keep.length > most / 2) throw new Error('thinTrace requires no more than half of the rows to be kept');
  const n = slipRpm.length;
  if (n <= most) return Array.from({ length: n }, (_, i) => i);
  for (let buckets = Math.floor(most / 2); ; buckets = Math.floor(buckets * FEWER)) {
    const rows = new Set([0, n - 1, ...keep]);
    for (let bucket = 0; bucket < buckets && rows.size <= most; bucket++) {
      const from = Math.floor((bucket * n) / buckets);
      const to = Math.floor(((bucket + 1) * n) / buckets);
      const slip = findExtremes(slipRpm, from, to);
      rows.add(slip.least).add(slip.most);
      const duty = findExtremes(dutyPct, from, to);
      if ((dutyPct[duty.most] ?? 0) - (dutyPct[duty.least] ?? 0) > DUTY_APART_PCT)
        rows.add(duty.least).add(duty.most);
    }
    if (rows.size <= most) return [...rows].sort((a, b) => a - b);
  }
}

function findExtremes(values: ArrayLike<number>, from: number, to: number): { least: number; most: number } {
  let [least, most] = [from, from];
  let [low, high] = [values[from] ?? 0, values[from] ?? 0];
  for (let i = from + 1; i < to; i++) {
    const value = values[i] ?? 0;
    if (value < low) {
      low = value;
      least = i;
    } else if (value > high) {
      high = value;
      most = i;
    }
  }
  return { least, most };
}
