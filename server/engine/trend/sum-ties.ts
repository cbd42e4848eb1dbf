/** Sums over the sizes t of the groups of equal values. */
export interface TieSums {
  /** sum t (t - 1) */
  first: number;
  /** sum t (t - 1) (t - 2) */
  second: number;
  /** sum t (t - 1) (2t + 5) */
  third: number;
}

/**
 * Sums over tied groups that the variances of Kendall's S need.
 *
 * sum t(t-1), sum t(t-1)(t-2), sum t(t-1)(2t+5), t the size of each group of equal values.
 *
 * @param values any unit
 * @returns the three sums; 0 without ties
 * Source: Kendall (1975), Rank Correlation Methods, 4th ed., chapter 4 (from memory). Edges, errors: none.
 * @example sumTies([1, 1, 2]) // first 2, second 0, third 18
 */
export function sumTies(values: readonly number[]): TieSums {
  const sorted = Float64Array.from(values).sort();
  const sums: TieSums = { first: 0, second: 0, third: 0 };
  for (let from = 0; from < sorted.length; ) {
    let to = from + 1;
    while (to < sorted.length && sorted[to] === sorted[from]) to++;
    const t = to - from;
    sums.first += t * (t - 1);
    sums.second += t * (t - 1) * (t - 2);
    sums.third += t * (t - 1) * (2 * t + 5);
    from = to;
  }
  return sums;
}
