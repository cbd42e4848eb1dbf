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
  if (n > FEW) return middleOfSorted(new Float64Array(values).sort(), n);
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

const isAbove = (a: number, b: number): boolean => a > b || (Number.isNaN(a) && !Number.isNaN(b));
