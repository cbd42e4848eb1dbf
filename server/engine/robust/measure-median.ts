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
  return middleOfSorted(new Float64Array(values).sort(), values.length);
}
