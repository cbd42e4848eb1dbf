import { measureMedian } from './measure-median.ts';
import { requireValues } from './require-values.ts';

/**
 * Weighted median.
 *
 * The value at which the running sum of the weights, in order of the values, passes half of their total; where it
 * meets half exactly, the mean of that value and the next. With equal weights it is the plain median.
 *
 * @param values any unit, any order
 * @param weight not negative, one for each value; without it each weighs 1
 * @returns median, unit of the values; NaN where nothing weighs
 * Source: Edgeworth (1888), Phil. Mag. 25, 184-191, for the idea (from memory); variant: midpoint of the lower and
 * upper weighted median. Edges: values of weight 0 take no part. Errors: as {@link requireValues}.
 * @example measureWeightedMedian([1, 2, 9], [1, 1, 3]) // 9
 */
export function measureWeightedMedian(values: readonly number[], weight?: readonly number[]): number {
  if (weight === undefined && values.every(Number.isFinite)) return measureMedian(values);
  const points = requireValues('measureWeightedMedian', values, weight);
  points.sort((a, b) => a.value - b.value);
  const half = points.reduce((sum, point) => sum + point.weight, 0) / 2;
  let sum = 0;
  for (const [i, point] of points.entries()) {
    sum += point.weight;
    if (Math.abs(sum - half) <= 1e-12 * half)
      return (point.value + (points[i + 1]?.value ?? point.value)) / 2;
    if (sum > half) return point.value;
  }
  return Number.NaN;
}
