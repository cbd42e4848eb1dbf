/**
 * The values at given places of the order, without sorting all of them.
 *
 * Quickselect (Hoare 1961, Comm. ACM 4, 321: algorithm 65 FIND) with the median of three as pivot and three-way
 * parting, so that many equal values cost nothing.
 *
 * @param values any unit; their order is changed
 * @param ranks  places from 0 for the smallest, rising
 * @returns one value for each place
 * Edges: none. Errors: throws on a rank outside the values.
 * @example selectInOrder(Float64Array.of(5, 1, 3), [1]) // [3]
 */
export function selectInOrder(values: Float64Array, ranks: readonly number[]): number[] {
  const at = (i: number) => values[i] ?? Number.NaN;
  const swap = (i: number, j: number) => {
    const kept = at(i);
    values[i] = at(j);
    values[j] = kept;
  };
  let left = 0;
  return ranks.map((rank) => {
    if (!(rank >= 0 && rank < values.length))
      throw new Error('selectInOrder requires ranks within the values');
    let low = Math.min(left, rank);
    let high = values.length - 1;
    while (low < high) {
      const [a, b, c] = [at(low), at((low + high) >> 1), at(high)];
      const pivot = Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
      let less = low;
      let more = high;
      for (let i = low; i <= more; ) {
        if (at(i) < pivot) swap(i++, less++);
        else if (at(i) > pivot) swap(i, more--);
        else i++;
      }
      if (rank < less) high = less - 1;
      else if (rank > more) low = more + 1;
      else break;
    }
    left = rank;
    return at(rank);
  });
}
