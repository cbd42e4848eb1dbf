import { measureWeightedMedian } from './measure-weighted-median.ts';

/** Makes the median absolute deviation estimate the standard deviation of a normal distribution. */
const NORMAL = 1.4826;

/**
 * Weighted median absolute deviation from the median, scaled to the standard deviation.
 *
 * 1.4826 * weighted median of |y - weighted median of y|.
 *
 * @param values any unit, any order
 * @param weight not negative, one for each value; without it each weighs 1
 * @returns robust standard deviation, unit of the values; NaN where nothing weighs; 0 where more than half are equal
 * Source: Hampel (1974), J. Amer. Statist. Assoc. 69, 383-393. Edges: as said.
 * Errors: throws as {@link measureWeightedMedian}.
 * @example measureWeightedMad([1, 2, 3]) // 1.4826
 */
export function measureWeightedMad(values: readonly number[], weight?: readonly number[]): number {
  const centre = measureWeightedMedian(values, weight);
  return (
    NORMAL *
    measureWeightedMedian(
      values.map((value) => Math.abs(value - centre)),
      weight,
    )
  );
}
