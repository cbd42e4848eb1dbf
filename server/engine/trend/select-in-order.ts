/**
 * The values at given places of the order, without sorting all of them.
 *
 * Quickselect for several places at once, with the median of three as pivot and three-way parting, so that many equal
 * values cost nothing: only parts with a wanted place are parted further.
 *
 * @param values any unit; their order is changed
 * @param ranks  places from 0 for the smallest
 * @returns one value for each place
 * Source: Hoare (1961), Comm. ACM 4, 321, algorithm 65 FIND (from memory). Edges: none. Errors: throws on a rank outside the values.
 * @example selectInOrder(Float64Array.of(5, 1, 3), [1]) // [3]
 */
export function selectInOrder(values: Float64Array, ranks: readonly number[]): number[] {
  if (!ranks.every((rank) => Number.isInteger(rank) && rank >= 0 && rank < values.length)) {
    throw new Error('selectInOrder requires ranks within the values');
  }
  const parts = [{ low: 0, high: values.length - 1 }];
  for (let part = parts.pop(); part !== undefined; part = parts.pop()) {
    const { low, high } = part;
    if (low >= high || !ranks.some((rank) => rank >= low && rank <= high)) continue;
    const { less, more } = partAround(values, low, high);
    parts.push({ low, high: less - 1 }, { low: more + 1, high });
  }
  return ranks.map((rank) => values[rank] ?? Number.NaN);
}

/** Parts values into smaller, equal and larger than a pivot; the equal ones lie from `less` to `more`. */
function partAround(values: Float64Array, low: number, high: number): { less: number; more: number } {
  const a = values[low] ?? 0;
  const b = values[(low + high) >> 1] ?? 0;
  const c = values[high] ?? 0;
  const pivot = Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
  let less = low;
  let more = high;
  let i = low;
  while (i <= more) {
    const value = values[i] ?? 0;
    if (value < pivot) {
      values[i++] = values[less] ?? 0;
      values[less++] = value;
    } else if (value > pivot) {
      values[i] = values[more] ?? 0;
      values[more--] = value;
    } else i++;
  }
  return { less, more };
}
