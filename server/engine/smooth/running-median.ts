/**
 * Running median.
 *
 * m_i = median(y_{i-h} .. y_{i+h}), the window cut short at the ends.
 *
 * @param values values in order, any unit
 * @param half   half width h of the window, in values
 * @returns as many medians as values
 * Source: Tukey (1977), Exploratory Data Analysis, chapter 7 (from memory). Errors: none.
 * @example runningMedian([1, 9, 2], 1) // [5, 2, 5.5]
 */
export function runningMedian(values: readonly number[], half: number): number[] {
  const window = new Float64Array(2 * half + 1);
  return values.map((_, i) => {
    const from = Math.max(0, i - half);
    const to = Math.min(values.length, i + half + 1);
    for (let k = from; k < to; k++) insert(window, k - from, values[k] ?? Number.NaN);
    return middleOf(window, to - from);
  });
}

/**
 * Median: the middle value, or the mean of the two middle ones.
 *
 * @param values values, any unit, in any order
 * @returns median; NaN where there are none
 * Source: any textbook. Errors: none.
 * @example medianOf([3, 1, 2]) // 2
 */
export function medianOf(values: readonly number[]): number {
  return middleOf(Float64Array.from(values).sort(), values.length);
}

/**
 * Robust standard deviation: 1.4826 times the median absolute deviation from the median.
 *
 * @param values values, any unit
 * @returns estimate of the standard deviation; NaN where there are none
 * Source: Hampel (1974), J. Amer. Statist. Assoc. 69, 383-393. Errors: none.
 * @example madSd([1, 2, 3]) // 1.4826
 */
export function madSd(values: readonly number[]): number {
  const centre = medianOf(values);
  return 1.4826 * medianOf(values.map((value) => Math.abs(value - centre)));
}

/** Puts a value in its place among the first `count` sorted ones. */
function insert(sorted: Float64Array, count: number, value: number): void {
  let k = count;
  for (; k > 0 && (sorted[k - 1] ?? 0) > value; k--) sorted[k] = sorted[k - 1] ?? 0;
  sorted[k] = value;
}

function middleOf(sorted: Float64Array, count: number): number {
  if (count === 0) return Number.NaN;
  const upper = sorted[count >> 1] ?? Number.NaN;
  return count % 2 === 1 ? upper : ((sorted[(count >> 1) - 1] ?? Number.NaN) + upper) / 2;
}
