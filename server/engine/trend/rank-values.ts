/**
 * Ranks of values, equal ones sharing the mean of their ranks.
 *
 * @param values any unit
 * @returns ranks from 1, in the order of the values
 * Source: Kendall (1975), Rank Correlation Methods, section 3.2 (mid-ranks; from memory). Edges, errors: none.
 * @example rankValues([10, 30, 10]) // [1.5, 3, 1.5]
 */
export function rankValues(values: readonly number[]): number[] {
  const order = values.map((_, i) => i).sort((a, b) => (values[a] ?? 0) - (values[b] ?? 0));
  const ranks = new Array<number>(values.length).fill(0);
  for (let from = 0; from < order.length; ) {
    let to = from + 1;
    while (to < order.length && values[order[to] ?? -1] === values[order[from] ?? -1]) to++;
    for (const i of order.slice(from, to)) ranks[i] = (from + 1 + to) / 2;
    from = to;
  }
  return ranks;
}
