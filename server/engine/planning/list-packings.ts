/** More packings of one gap than this are not listed: a model with them all would not be solved in time. */
const MOST_PACKINGS = 4_000;

/**
 * Packings of a gap into which nothing more fits.
 *
 * All vectors n with sum n_i * length_i <= room and 0 <= n_i <= most_i to which no further piece can be added. Every
 * other packing is part of one of these.
 *
 * @param room    length of the gap, quarters of an hour
 * @param lengths of the pieces, quarters of an hour, each once, falling
 * @param most    pieces that there are of each length
 * @returns how many pieces of each length, packing by packing, those with the longest pieces first; and whether these
 * are all of them: there are 4,000 at the most
 * Source: cutting patterns of P. C. Gilmore and R. E. Gomory, A linear programming approach to the cutting-stock
 * problem, 1961. Edges: one empty packing where nothing fits. Errors: none.
 * @example listPackings(9, [6, 4, 3], [1, 2, 3]).packings // [[1, 0, 1], [0, 2, 0], [0, 1, 1], [0, 0, 3]]
 */
export function listPackings(
  room: number,
  lengths: readonly number[],
  most: readonly number[],
): { packings: number[][]; complete: boolean } {
  const packings: number[][] = [];
  let complete = true;
  const counts = lengths.map(() => 0);
  const fill = (i: number, left: number): void => {
    if (packings.length >= MOST_PACKINGS) {
      complete = false;
      return;
    }
    const length = lengths[i];
    if (length === undefined) {
      if (lengths.every((one, k) => one > left || (counts[k] ?? 0) >= (most[k] ?? 0)))
        packings.push([...counts]);
      return;
    }
    for (let n = Math.min(most[i] ?? 0, Math.floor(left / length)); n >= 0; n -= 1) {
      counts[i] = n;
      fill(i + 1, left - n * length);
    }
    counts[i] = 0;
  };
  fill(0, room);
  return { packings, complete };
}
