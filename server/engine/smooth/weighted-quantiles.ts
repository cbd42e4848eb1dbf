import { selectInOrder } from '#server/engine/trend/select-in-order.ts';
import { orderByValue } from './order-by-value.ts';

/**
 * Quantiles of weighted values.
 *
 * The smallest value at which the running sum of the weights, in order of the values, reaches p of their total:
 * the inverse of the empirical distribution function.
 *
 * @param values        any unit
 * @param weights       not negative, as many as values
 * @param probabilities from 0 to 1, rising
 * @returns one value for each probability; NaN where there are none
 * Source: definition 1 of Hyndman and Fan (1996), The American Statistician 50, 361-365 (from memory). Edges: equal
 * weights give the plain quantiles. Errors: throws on unequal lengths.
 * @example weightedQuantiles([1, 2, 3], [1, 1, 2], [0.5]) // [2]
 */
export function weightedQuantiles(
  values: ArrayLike<number>,
  weights: ArrayLike<number>,
  probabilities: readonly number[],
): number[] {
  const n = values.length;
  if (n !== weights.length) throw new Error('weightedQuantiles requires a weight for each value');
  if (n === 0) return probabilities.map(() => Number.NaN);
  const shares = new Float64Array(weights);
  const first = shares[0] ?? 0;
  let total = 0;
  let isEven = true;
  for (let i = 0; i < n; i++) {
    const share = shares[i] ?? 0;
    total += share;
    if (share !== first) isEven = false;
  }
  // Where all weigh alike, the running sum is the same whatever the order, and nothing needs to be sorted.
  const order = isEven ? null : orderByValue(values);
  const ranks: number[] = [];
  let sum = 0;
  for (let rank = 0; rank < n && ranks.length < probabilities.length; rank++) {
    sum += shares[order === null ? rank : (order[rank] ?? 0)] ?? 0;
    while (
      ranks.length < probabilities.length &&
      sum >= (probabilities[ranks.length] ?? 0) * total * (1 - 1e-12)
    )
      ranks.push(rank);
  }
  while (ranks.length < probabilities.length) ranks.push(n - 1);
  if (order === null) return selectInOrder(new Float64Array(values), ranks);
  return ranks.map((rank) => values[order[rank] ?? 0] ?? Number.NaN);
}
