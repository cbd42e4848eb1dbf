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
  values: readonly number[],
  weights: readonly number[],
  probabilities: readonly number[],
): number[] {
  if (values.length !== weights.length) throw new Error('weightedQuantiles requires a weight for each value');
  const order = values.map((_, i) => i).sort((a, b) => (values[a] ?? 0) - (values[b] ?? 0));
  const total = weights.reduce((a, b) => a + b, 0);
  let sum = 0;
  let next = 0;
  const quantiles: number[] = [];
  for (const i of order) {
    sum += weights[i] ?? 0;
    while (next < probabilities.length && sum >= (probabilities[next] ?? 0) * total * (1 - 1e-12)) {
      quantiles.push(values[i] ?? Number.NaN);
      next++;
    }
  }
  while (quantiles.length < probabilities.length) quantiles.push(values[order.at(-1) ?? -1] ?? Number.NaN);
  return quantiles;
}
