import { type Declined, decline } from '#server/engine/declined.ts';
import { measureMedian } from '#server/engine/robust/measure-median.ts';
import { measureWeightedMad } from '#server/engine/robust/measure-weighted-mad.ts';

export interface Baseline {
  /** median of the values */
  target: number;
  /** 1.4826 times the median absolute deviation, or the plain standard deviation where that is 0 */
  sd: number;
  /** values that were used, from the first on */
  count: number;
}

/** Fewer do not tell a scale: the standard error of it is still a third with 8. Own choice. */
const LEAST_VALUES = 8;

/**
 * Level and scale of the first values of a series, for charts that compare what follows with them.
 *
 * target = median, sd = 1.4826 median |y - target|; where more than half are equal, sqrt(sum (y - mean)^2 / (n - 1)).
 *
 * @param values in order, any unit
 * @param count  how many from the first on belong to the baseline; at least 8 are used
 * @returns both, or declined with fewer than 8 values or where those of the baseline are all equal
 * Source: median and its absolute deviation, Hampel (1974), J. Amer. Statist. Assoc. 69, 383-393; that a chart needs
 * a healthy start is common practice, no source. Edges: as said. Errors: throws on values that are not finite.
 * @example estimateBaseline([1, 2, 3, 1, 2, 3, 1, 2, 90], 8) // target 2, sd 1.4826
 */
export function estimateBaseline(values: readonly number[], count: number): Baseline | Declined {
  if (!values.every(Number.isFinite)) throw new Error('estimateBaseline requires finite values');
  if (values.length < LEAST_VALUES)
    return decline('too few points for a baseline', `at least ${LEAST_VALUES}`, `${values.length}`);
  const first = values.slice(0, Math.max(LEAST_VALUES, count));
  const sd = measureWeightedMad(first) || measureStandardDeviation(first);
  if (sd === 0)
    return decline('baseline without scatter', 'values that differ', `${first.length} equal ones`);
  return { target: measureMedian(first), sd, count: first.length };
}

function measureStandardDeviation(values: readonly number[]): number {
  // Of equal values the mean can be off by rounding.
  if (values.every((one) => one === values[0])) return 0;
  const mean = values.reduce((a, b) => a + b, 0) / values.length;
  return Math.sqrt(values.reduce((sum, one) => sum + (one - mean) ** 2, 0) / (values.length - 1));
}
