import { type Declined, decline } from '#server/engine/declined.ts';
import { measureWeightedMedian } from './measure-weighted-median.ts';
import { requireValues } from './require-values.ts';

const MOST_VALUES = 2000;

/**
 * Hodges-Lehmann estimate of location: the median of all means of two.
 *
 * Median of (y_i + y_j) / 2 over i <= j.
 *
 * @param values any unit
 * @returns location, unit of the values, or declined without values or above 2,000 (n^2 / 2 means are held)
 * Source: Hodges and Lehmann (1963), Ann. Math. Statist. 34, 598-611; Hollander and Wolfe (1999), Nonparametric
 * Statistical Methods, section 3.2. Edges: one value is its own estimate. Errors: as {@link requireValues}.
 * @example estimateHodgesLehmann([1, 2, 6]) // 2.75
 */
export function estimateHodgesLehmann(values: readonly number[]): number | Declined {
  requireValues('estimateHodgesLehmann', values);
  if (values.length === 0) return decline('no values', 'at least 1', '0');
  if (values.length > MOST_VALUES) {
    return decline('too many values', `at most ${MOST_VALUES}`, `${values.length}`);
  }
  const means = values.flatMap((value, i) => values.slice(i).map((other) => (value + other) / 2));
  return measureWeightedMedian(means);
}
