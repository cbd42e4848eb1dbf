import { middleOfSorted } from '#server/engine/robust/middle-of-sorted.ts';

/**
 * Running median.
 *
 * m_i = median(y_{i-h} .. y_{i+h}), the window cut short at the ends.
 *
 * @param values values in order, any unit
 * @param half   half width h of the window, in values
 * @returns as many medians as values
 * Source: Tukey (1977), Exploratory Data Analysis, chapter 7 (from memory). Edges: a half width of 0 gives the values
 * back, none give none. Errors: none.
 * @example runningMedian([1, 9, 2], 1) // [5, 2, 5.5]
 */
export function runningMedian(values: readonly number[], half: number): number[] {
  const window = new Float64Array(2 * half + 1);
  return values.map((_, i) => {
    const from = Math.max(0, i - half);
    const to = Math.min(values.length, i + half + 1);
    for (let k = from; k < to; k++) insert(window, k - from, values[k] ?? Number.NaN);
    return middleOfSorted(window, to - from);
  });
}

/** Puts a value in its place among the first `count` sorted ones. */
function insert(sorted: Float64Array, count: number, value: number): void {
  let k = count;
  for (; k > 0 && (sorted[k - 1] ?? 0) > value; k--) sorted[k] = sorted[k - 1] ?? 0;
  sorted[k] = value;
}
