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
  const sorted = new Float64Array(2 * half + 1);
  let count = 0;
  const medians: number[] = [];
  for (let i = 0; i < values.length; i++) {
    const gone = i - half - 1;
    if (gone >= 0) count = remove(sorted, count, values[gone] ?? Number.NaN);
    for (let k = i === 0 ? 0 : i + half; k <= i + half && k < values.length; k++)
      count = insert(sorted, count, values[k] ?? Number.NaN);
    medians.push(middleOfSorted(sorted, count));
  }
  return medians;
}

/** Puts a value in its place among the first `count` sorted ones; what is not a number stands last. */
function insert(sorted: Float64Array, count: number, value: number): number {
  let k = count;
  for (; k > 0 && isAbove(sorted[k - 1] ?? 0, value); k--) sorted[k] = sorted[k - 1] ?? 0;
  sorted[k] = value;
  return count + 1;
}

function remove(sorted: Float64Array, count: number, value: number): number {
  let k = 0;
  while (k < count - 1 && sorted[k] !== value && !(Number.isNaN(value) && Number.isNaN(sorted[k]))) k++;
  for (; k < count - 1; k++) sorted[k] = sorted[k + 1] ?? 0;
  return count - 1;
}

const isAbove = (a: number, b: number): boolean => a > b || (Number.isNaN(a) && !Number.isNaN(b));
