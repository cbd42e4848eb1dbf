import { middleOfSorted } from './middle-of-sorted.ts';

/**
 * Median: the middle value, or the mean of the two middle ones.
 *
 * @param values any unit, any order
 * @returns median, unit of the values; NaN where there are none
 * Source: any textbook. Variant: unchecked and unweighted, for where medians are taken by the thousand; with weights
 * it is measureWeightedMedian. Edges: a value that is not a number sorts last. Errors: none.
 * @example measureMedian([3, 1, 2]) // 2
 */
export function measureMedian(values: readonly number[]): number {
  const n = values.length;
  if (n > FEW) return middleOfMany(new Float64Array(values));
  for (let i = 0; i < n; i++) {
    const value = values[i] ?? Number.NaN;
    let k = i;
    for (; k > 0 && isAbove(few[k - 1] ?? 0, value); k--) few[k] = few[k - 1] ?? 0;
    few[k] = value;
  }
  return middleOfSorted(few, n);
}

/** So few are put in order faster one by one. */
const FEW = 24;
const few = new Float64Array(FEW);

/** Fewer are sorted as quickly. */
const MANY = 80;
/** A search that has not ended after so many parts, which nothing but an unlucky order makes, is left to sorting. */
const MOST_PARTS = 64;

/** By parting about a pivot, the part with the middle alone again (Hoare 1961), in a time in proportion to their count. */
function middleOfMany(values: Float64Array): number {
  const n = values.length;
  if (n < MANY) return middleOfSorted(values.sort(), n);
  // What is not a number stands last, where only sorting puts it.
  for (let i = 0; i < n; i++) if (Number.isNaN(values[i])) return middleOfSorted(values.sort(), n);
  const middle = n >> 1;
  let low = 0;
  let high = n - 1;
  for (let part = 0; low < high; part++) {
    const pivot = middleOfThree(values[low] ?? 0, values[(low + high) >> 1] ?? 0, values[high] ?? 0);
    if (part === MOST_PARTS) return middleOfSorted(values.sort(), n);
    let i = low;
    let j = high;
    while (i <= j) {
      while ((values[i] ?? 0) < pivot) i++;
      while ((values[j] ?? 0) > pivot) j--;
      if (i > j) break;
      const one = values[i] ?? 0;
      values[i++] = values[j] ?? 0;
      values[j--] = one;
    }
    if (middle <= j) high = j;
    else if (middle >= i) low = i;
    else break;
  }
  const upper = values[middle] ?? Number.NaN;
  if (n % 2 === 1) return upper;
  let lower = values[0] ?? Number.NaN;
  for (let i = 1; i < middle; i++) if ((values[i] ?? 0) > lower) lower = values[i] ?? 0;
  return (lower + upper) / 2;
}

const middleOfThree = (a: number, b: number, c: number): number =>
  Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));

const isAbove = (a: number, b: number): boolean => a > b || (Number.isNaN(a) && !Number.isNaN(b));
